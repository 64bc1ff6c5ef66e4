"""Power and voltage against tables made by hand from V = sqrt(50 P), dBm = 10 log10(P / 1 mW)."""

import pytest

from engine.radio import power

# W, dBm, V rms, V pk, V pp in 50 ohm.
POWERS = [
    (0.1, 20.00, 2.236, 3.162, 6.325),
    (0.4, 26.02, 4.472, 6.325, 12.649),
    (0.5, 26.99, 5.000, 7.071, 14.142),
    (1.0, 30.00, 7.071, 10.000, 20.000),
    (4.0, 36.02, 14.142, 20.000, 40.000),
    (5.0, 36.99, 15.811, 22.361, 44.721),
    (10.0, 40.00, 22.361, 31.623, 63.246),
    (12.0, 40.79, 24.495, 34.641, 69.282),  # PEP
    (16.0, 42.04, 28.284, 40.000, 80.000),
]

# uV, dBm, dBuV in 50 ohm.
VOLTAGES = [
    (0.1, -126.99, -20.00),
    (0.25, -119.03, -12.04),
    (0.5, -113.01, -6.02),
    (1.0, -106.99, 0.00),
    (2.0, -100.97, 6.02),
    (5.0, -93.01, 13.98),
    (10.0, -86.99, 20.00),
    (50.0, -73.01, 33.98),
    (1000.0, -46.99, 60.00),
]

# SWR, reflection G = (S - 1) / (S + 1), reflected %, reflected of 4 W.
REFLECTIONS = [
    (1.1, 0.0476, 0.23, 0.009),
    (1.2, 0.0909, 0.83, 0.033),
    (1.5, 0.2000, 4.00, 0.160),
    (2.0, 0.3333, 11.11, 0.444),
    (3.0, 0.5000, 25.00, 1.000),
    (5.0, 0.6667, 44.44, 1.778),
    (10.0, 0.8182, 66.94, 2.678),
]

# SWR, return loss in dB: -20 log10 G.
RETURN_LOSSES = [
    (1.1, 26.44),
    (1.2, 20.83),
    (1.5, 13.98),
    (2.0, 9.54),
    (3.0, 6.02),
    (5.0, 3.52),
    (10.0, 1.74),
]

# S, uV, dBm: IARU Region 1, Technical Recommendation R.1 (1981), below 30 MHz.
S_METER = [
    (1, 0.20, -121),
    (3, 0.79, -109),
    (5, 3.16, -97),
    (7, 12.6, -85),
    (9, 50.1, -73),
]

BY_FIRST = {"ids": lambda row: f"{row[0]:g}"}


@pytest.mark.parametrize("row", POWERS, **BY_FIRST)
def test_watt_and_dbm(row: tuple[float, ...]) -> None:
    """Both ways: dBm to two decimals, and watt to what half a hundredth of a dB amounts to."""
    watt, dbm = row[:2]
    assert power.dbm_from_watt(watt) == pytest.approx(dbm, abs=0.005)
    assert power.watt_from_dbm(dbm) == pytest.approx(watt, rel=0.0012)
    assert power.watt_from_dbm(power.dbm_from_watt(watt)) == pytest.approx(watt, rel=1e-12)


@pytest.mark.parametrize("row", POWERS, **BY_FIRST)
def test_watt_and_volts(row: tuple[float, ...]) -> None:
    """Peak to peak, peak and rms, to the three decimals of the table."""
    watt, _, rms, peak, vpp = row
    assert power.vpp_from_watt(watt) == pytest.approx(vpp, abs=0.0005)
    assert power.vpp_from_watt(watt) / 2.0 == pytest.approx(peak, abs=0.0005)
    assert power.watt_from_vpp(vpp) == pytest.approx(watt, rel=2e-4)
    assert power.watt_from_vrms(rms) == pytest.approx(watt, rel=5e-4)
    assert power.watt_from_vpp(power.vpp_from_watt(watt)) == pytest.approx(watt, rel=1e-12)


@pytest.mark.parametrize("row", VOLTAGES, **BY_FIRST)
def test_microvolt(row: tuple[float, ...]) -> None:
    """From dBm and from dBuV, to what half a hundredth of a dB amounts to; and to dBm."""
    microvolt, dbm, dbuv = row
    assert power.dbm_from_microvolt(microvolt) == pytest.approx(dbm, abs=0.005)
    assert power.microvolt_from_dbm(dbm) == pytest.approx(microvolt, rel=0.0006)
    assert power.microvolt_from_dbuv(dbuv) == pytest.approx(microvolt, rel=0.0006)


@pytest.mark.parametrize("row", S_METER, **BY_FIRST)
def test_s_meter_steps(row: tuple[float, ...]) -> None:
    """Each S step is 6 dB, S9 is -73 dBm: the microvolts as in the recommendation."""
    step, microvolt, dbm = row
    assert dbm == -73 - 6 * (9 - step)
    assert power.microvolt_from_dbm(dbm) == pytest.approx(microvolt, rel=0.005)


@pytest.mark.parametrize("row", REFLECTIONS, **BY_FIRST)
def test_swr(row: tuple[float, ...]) -> None:
    """The SWR lies between what the printed power, half a digit down and up, would give."""
    swr, reflection, percent, of_4_watt = row
    for forward, back, half in (
        (1.0, reflection**2, reflection * 1e-4),
        (100.0, percent, 0.005),
        (4.0, of_4_watt, 0.0005),
    ):
        low = power.swr_from_powers(forward, back - half)
        high = power.swr_from_powers(forward, back + half)
        assert low <= swr <= high


@pytest.mark.parametrize(("swr", "loss_db"), RETURN_LOSSES)
def test_return_loss(swr: float, loss_db: float) -> None:
    """Both ways, to the two decimals of the table."""
    assert power.return_loss_from_swr(swr) == pytest.approx(loss_db, abs=0.005)
    higher, lower = (power.swr_from_return_loss(loss_db + half) for half in (-0.005, 0.005))
    assert lower <= swr <= higher


def test_a_perfect_match_reflects_nothing() -> None:
    """No power back: SWR 1."""
    assert power.swr_from_powers(4.0, 0.0) == 1.0


def test_other_resistances() -> None:
    """Across 8 ohm, 8 Vpp are 1 W; 4 V rms are 2 W."""
    assert power.watt_from_vpp(8.0, ohm=8.0) == 1.0
    assert power.vpp_from_watt(1.0, ohm=8.0) == 8.0
    assert power.watt_from_vrms(4.0, ohm=8.0) == 2.0
    assert power.microvolt_from_dbm(-30.0, ohm=100.0) == pytest.approx(1e4, rel=1e-12)


# Limits as they are often quoted, and the same figure in other units.
QUOTED = [
    (20e-6, -16.99),  # adjacent channel power, 20 uW
    (0.25e-6, -36.0),  # spurious, 0.25 uW
    (4e-9, -54.0),  # spurious in broadcast bands, 4 nW
    (50e-9, -43.0),
]


@pytest.mark.parametrize(("watt", "dbm"), QUOTED)
def test_small_powers(watt: float, dbm: float) -> None:
    """Microwatts and nanowatts as dBm, to the digits that are quoted."""
    assert power.dbm_from_watt(watt) == pytest.approx(dbm, abs=0.05)
