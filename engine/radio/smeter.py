"""S units: a convention for meters. It is shown, and never taken as evidence.

References:
    IARU Region 1, Technical Recommendation R.1 (1981): below 30 MHz S9 is -73 dBm, 50 uV across
    50 ohm; a step is 6 dB.
"""

import re

from engine.radio.figures import Unclear, three, tidy
from engine.radio.power import microvolt_from_dbm
from engine.radio.quantities import Asked

S9_DBM = -73.0
STEP_DB = 6.0
LEVELS = ("uV", "mV", "dBm", "dBuV")
S_UNITS = re.compile(r"S ?(\d)(?: ?\+ ?(\d+)(?: ?dB)?)?", re.IGNORECASE)


def dbm_from_s(step: int, over_db: float = 0.0) -> float:
    """Return the level of an S reading below 30 MHz by the convention, in dBm.

    >>> dbm_from_s(7), dbm_from_s(9, 20.0)
    (-85.0, -53.0)
    """
    return S9_DBM - STEP_DB * (9 - step) + over_db


def refuse_s_units(text: str, asked: Asked) -> None:
    """Refuse an S reading where a level is asked for, and say what the convention would make of it.

    Raises:
        Unclear: the text is an S reading.
    """
    matched = S_UNITS.fullmatch(tidy(text))
    if matched is None or asked.unit not in LEVELS:
        return
    dbm = dbm_from_s(int(matched[1]), float(matched[2] or 0.0))
    name = f"S{matched[1]}{'+' + matched[2] + ' dB' if matched[2] else ''}"
    found = f"{name}, and S meters rarely follow the convention"
    remedy = (
        f"By the convention for below 30 MHz (IARU Region 1 R.1, 1981) {name} would be "
        f"{three(microvolt_from_dbm(dbm))} uV ({dbm:g} dBm). Write the level the generator shows."
    )
    raise Unclear(found, remedy)
