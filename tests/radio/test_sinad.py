"""SINAD as a ratio of powers, from the definition (S + N + D) / (N + D)."""

import pytest

from engine.radio import sinad
from engine.radio.power import dbm_from_microvolt

# SINAD dB, power ratio, residual as % of the whole voltage, S / (N + D) in dB: the definition.
SINADS = [
    (10.0, 10.000, 31.62, 9.54),
    (12.0, 15.849, 25.12, 11.72),
    (20.0, 100.00, 10.00, 19.96),
]


@pytest.mark.parametrize(("db", "ratio", "residual", "signal_db"), SINADS)
def test_sinad(db: float, ratio: float, residual: float, signal_db: float) -> None:
    """From signal and residue to SINAD, and from SINAD to what the notch leaves."""
    assert sinad.sinad_db(ratio - 1.0, 1.0) == pytest.approx(db, abs=0.001)
    assert sinad.sinad_db(10.0 ** (signal_db / 10.0), 1.0) == pytest.approx(db, abs=0.006)
    assert 100.0 * sinad.residual_share(db) == pytest.approx(residual, abs=0.005)


def test_no_signal_gives_no_decibel() -> None:
    """Without a signal SINAD is 0 dB, never negative."""
    assert sinad.sinad_db(0.0, 3.0) == 0.0


def test_emf_is_six_decibels_more() -> None:
    """The voltage across a matched load is half the EMF: 6.02 dB."""
    across = sinad.pd_from_emf(1.0)
    assert dbm_from_microvolt(1.0) - dbm_from_microvolt(across) == pytest.approx(6.02, abs=0.001)
