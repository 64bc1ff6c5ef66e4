"""Modulation against scipy's Bessel functions and the formulas of the textbooks."""

import pytest
from scipy import special

from engine.radio import modulation

# Peak deviation kHz, tones in Hz of the first three nulls, Carson's bandwidth in kHz for 3 kHz:
# worked out from the zeros of J0 (Abramowitz & Stegun, table 9.5) and B = 2 (D + f) (Carson 1922).
DEVIATIONS = [
    (1.5, (623.7, 271.7, 173.3), 9.0),
    (2.0, (831.7, 362.3, 231.1), 10.0),
    (2.5, (1039.6, 452.9, 288.9), 11.0),
    (4.0, (1663.3, 724.6, 462.2), 14.0),
    (5.0, (2079.2, 905.8, 577.8), 16.0),
]

# Depth, Vpp at crest and trough, peak envelope W, mean W, of a 4 W carrier in 50 ohm, 40 Vpp:
# m = (Vmax - Vmin) / (Vmax + Vmin), 4 (1 + m)^2, 4 (1 + m^2 / 2), any textbook on modulation.
DEPTHS = [
    (0.30, 52.0, 28.0, 6.76, 4.18),
    (0.50, 60.0, 20.0, 9.00, 4.50),
    (0.85, 74.0, 6.0, 13.69, 5.445),
    (0.90, 76.0, 4.0, 14.44, 5.62),
    (1.00, 80.0, 0.0, 16.00, 6.00),
]


def test_the_zeros_are_those_of_scipy() -> None:
    """The first three zeros of J0, to the six decimals that are kept."""
    for kept, exact in zip(modulation.BESSEL_ZEROS, special.jn_zeros(0, 3), strict=True):
        assert kept == pytest.approx(exact, abs=5e-7)


@pytest.mark.parametrize("null", [1, 2, 3])
def test_the_carrier_vanishes_there(null: int) -> None:
    """J0 of deviation over tone is zero: no carrier is left."""
    tone_hz = modulation.null_tone(2500.0, null)
    assert special.j0(2500.0 / tone_hz) == pytest.approx(0.0, abs=1e-6)
    assert modulation.deviation_from_null(tone_hz, null) == pytest.approx(2500.0, rel=1e-12)


@pytest.mark.parametrize(("deviation_khz", "tones_hz", "carson_khz"), DEVIATIONS)
def test_nulls_and_bandwidth(
    deviation_khz: float, tones_hz: tuple[float, ...], carson_khz: float
) -> None:
    """The tone of each null, to a tenth of a hertz, and Carson's bandwidth."""
    tones = [modulation.null_tone(1000.0 * deviation_khz, null) for null in (1, 2, 3)]
    assert tones == pytest.approx(tones_hz, abs=0.06)
    bandwidth_hz = modulation.carson_bandwidth(1000.0 * deviation_khz, 3000.0)
    assert bandwidth_hz == pytest.approx(1000.0 * carson_khz, rel=1e-12)


def test_carson_holds_nearly_all_of_the_power() -> None:
    """Of 2.5 kHz deviation by a 1 kHz tone at least 98 % lies within 2 (D + f), by scipy."""
    pairs = int(modulation.carson_bandwidth(2500.0, 1000.0) / 2.0 // 1000.0)
    inside = special.jv(0, 2.5) ** 2 + 2.0 * sum(
        special.jv(order, 2.5) ** 2 for order in range(1, pairs + 1)
    )
    assert 0.98 < inside < 1.0


@pytest.mark.parametrize(("depth", "crest", "trough", "peak_w", "mean_w"), DEPTHS)
def test_amplitude_modulation(
    depth: float, crest: float, trough: float, peak_w: float, mean_w: float
) -> None:
    """Depth from the picture on a scope; peak envelope and mean power of a 4 W carrier."""
    assert modulation.am_depth(crest, trough) == pytest.approx(depth, rel=1e-12)
    assert modulation.peak_envelope_watt(4.0, depth) == pytest.approx(peak_w, rel=1e-12)
    assert modulation.mean_watt(4.0, depth) == pytest.approx(mean_w, rel=1e-12)
