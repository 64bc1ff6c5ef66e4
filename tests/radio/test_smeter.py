"""S units by IARU Region 1, Technical Recommendation R.1 (1981), below 30 MHz, as printed."""

import pytest

from engine.radio.power import microvolt_from_dbm
from engine.radio.smeter import dbm_from_s

# S, decibels over it, dBm, uV across 50 ohm.
S_UNITS = [
    (1, 0, -121, 0.20),
    (2, 0, -115, 0.40),
    (3, 0, -109, 0.79),
    (4, 0, -103, 1.58),
    (5, 0, -97, 3.16),
    (6, 0, -91, 6.30),
    (7, 0, -85, 12.6),
    (8, 0, -79, 25.1),
    (9, 0, -73, 50.1),
    (9, 10, -63, 158.0),
    (9, 20, -53, 501.0),
]


@pytest.mark.parametrize(("step", "over", "dbm", "microvolt"), S_UNITS)
def test_s_units(step: int, over: int, dbm: float, microvolt: float) -> None:
    """The level in dBm is exact; the microvolts are those printed, to half their last digit."""
    assert dbm_from_s(step, over) == dbm
    assert microvolt_from_dbm(dbm_from_s(step, over)) == pytest.approx(microvolt, rel=0.012)
