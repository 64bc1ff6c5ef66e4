"""Sensitivity: a level, the SINAD it gives, and whether the level is meant as EMF.

References:
    SINAD = (S + N + D) / (N + D), a ratio of powers; 12 dB is the usual point for FM sets.
    A generator's EMF is twice the voltage across a matched load: 6.02 dB.
"""

import re
from dataclasses import replace
from math import log10

from engine.radio.figures import Unclear, figure, shown, three, tidy
from engine.radio.quantities import Asked, Understood, read_quantity
from engine.radio.units import spoken

USUAL_DB = 12.0  # common practice
EMF_RATIO = 2.0

NUMBER = r"[-+]?\d+(?:[.,]\d+)?"
SINAD_FIRST = re.compile(
    rf"({NUMBER}) ?dB(?: SINAD)? ?(?:at|@|with|from|:|=) ?(.+)|({NUMBER}) ?dB SINAD,? (.+)",
    re.IGNORECASE,
)
LEVEL_FIRST = re.compile(
    rf"(.+?),? (?:for|at|@|gives|=) ?({NUMBER}) ?dB(?: SINAD)?|(.+?),? ({NUMBER}) ?dB SINAD",
    re.IGNORECASE,
)
EMF = re.compile(r",? ?\(?\b(emf|p\.?d\.?)(?!\w)\)?", re.IGNORECASE)


def pd_from_emf(emf: float) -> float:
    """Return the voltage across a matched load, in the unit of the EMF.

    >>> pd_from_emf(0.5)
    0.25
    """
    return emf / EMF_RATIO


def sinad_db(signal: float, noise_and_distortion: float) -> float:
    """Return the SINAD in dB from two powers in one unit; without a signal it is 0.

    >>> sinad_db(0.0, 1.0)
    0.0
    """
    return 10.0 * log10((signal + noise_and_distortion) / noise_and_distortion)


def residual_share(db: float) -> float:
    """Return what is left, as a share of the whole voltage, when the tone is notched out.

    >>> round(100.0 * residual_share(12.0), 2)
    25.12
    """
    return float(10.0 ** (-db / 20.0))


def read_sensitivity(text: str, asked: Asked) -> Understood | None:
    """Return the level in a sentence about sensitivity; None when it is only a level.

    Raises:
        Unclear: it is told for another SINAD, or a power is called an EMF.

    >>> read_sensitivity("12 dB SINAD at 0.5 uV emf", Asked("uV")).words
    '0.5 uV EMF is 0.25 uV across 50 ohm'
    """
    level, sinad = _parts(tidy(text))
    if sinad is not None and sinad != USUAL_DB:
        remedy = (
            f"Set the generator until the meter shows {shown(USUAL_DB)} dB, and write that level: "
            "one SINAD cannot be worked out from another."
        )
        raise Unclear(f"a level for {shown(sinad)} dB SINAD", remedy)
    said = EMF.search(level)
    if said is None and sinad is None:
        return None
    plain = EMF.sub("", level).strip()
    if said is None or said[1].lower() != "emf":
        return read_quantity(plain, asked)
    return _halved(plain, asked)


def _parts(text: str) -> tuple[str, float | None]:
    """Return the level and the SINAD that are told, in either order."""
    for pattern, level, sinad in ((SINAD_FIRST, (2, 4), (1, 3)), (LEVEL_FIRST, (1, 3), (2, 4))):
        if matched := pattern.fullmatch(text):
            told = next(matched[one] for one in sinad if matched[one])
            rest = next(matched[one] for one in level if matched[one])
            return rest, float(told.replace(",", "."))
    return text, None


def _halved(plain: str, asked: Asked) -> Understood:
    """Return half of an EMF: what stands across the matched load."""
    told = figure(plain)
    given = spoken(told.rest) if told.rest else None
    if given is not None and given.base == "dBm":
        remedy = "Write the level as it is marked on the generator: dBm, or microvolts EMF."
        raise Unclear(f"'{plain}' is a power, and only a voltage can be an EMF", remedy)
    # The halved value is held to the span, not the EMF: a comma is judged by what it leads to.
    low, high = asked.span or (-float("inf"), float("inf"))
    whole = replace(asked, span=(low * EMF_RATIO, high * EMF_RATIO)) if asked.span else asked
    emf = read_quantity(plain, whole)
    value = pd_from_emf(emf.value)
    words = shown(value) if value == float(f"{value:.4g}") else three(value)
    return Understood(value, f"{words} {asked.unit} across 50 ohm", f"{emf.how or emf.shown} EMF")
