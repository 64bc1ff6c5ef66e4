"""Readings held to limits read in 47 CFR 95 D, and the arithmetic of the decision against scipy."""

import pytest
from scipy.stats import norm

from engine.proving.readings import Reading, Typed, enter
from engine.proving.sheet import Point, ProofSheet
from engine.proving.verdict import Row, prove, rules_of

CH_19_TOLERANCE_HZ = 1359.0  # 50 ppm of 27.185 MHz: 47 CFR 95.965, derived in the sheet of values


def row_of(sheet: ProofSheet, name: str, said: str, accuracy: str) -> Row:
    """Return what one reading alone proves under the US rules."""
    reading = enter(sheet, name, Typed(said), dict.fromkeys(sheet.instruments, accuracy))
    proved = prove(sheet, rules_of(sheet, "us"), {name: reading})
    return next(row for row in proved.rows if row.point.id == name)


@pytest.mark.parametrize(
    ("said", "accuracy", "verdict"),
    [
        ("27.406 MHz", "0.1 ppm", "pass"),
        ("27.4064 MHz", "0.1 ppm", "fail"),
        ("27.40636 MHz", "0.1 ppm", "pass"),
        ("27.40636 MHz", "10 ppm", "cannot-tell"),
        ("27.40364 MHz", "0.1 ppm", "pass"),
        ("27.4036 MHz", "0.1 ppm", "fail"),
    ],
)
def test_frequency_within_50_ppm(
    sideband_sheet: ProofSheet, said: str, accuracy: str, verdict: str
) -> None:
    """47 CFR 95.965, read: 50 ppm; on channel 40, 27.405 MHz, that is 1370.25 Hz."""
    assert row_of(sideband_sheet, "carrier-frequency@40", said, accuracy).verdict == verdict


def test_the_limit_is_that_of_the_sheet_of_values(sideband_sheet: ProofSheet) -> None:
    """The limit in kHz goes with the carrier: 1359 Hz on channel 19."""
    row = row_of(sideband_sheet, "carrier-frequency@40", "27.406 MHz", "1 ppm")
    bound_hz = row.held[0].judgement.bound * 1000.0
    assert bound_hz == pytest.approx(CH_19_TOLERANCE_HZ * 27.405 / 27.185, rel=3e-4)


@pytest.mark.parametrize(
    ("said", "verdict"), [("3.7 W", "pass"), ("4.3 W", "fail"), ("3.95 W", "cannot-tell")]
)
def test_carrier_power_of_at_most_4_w(sideband_sheet: ProofSheet, said: str, verdict: str) -> None:
    """47 CFR 95.967(a), read: 4 W. 5 % of the reading is 0.23 W at k = 2 for limits of a meter."""
    assert row_of(sideband_sheet, "carrier-power", said, "5 %").verdict == verdict


@pytest.mark.parametrize("said", ["3.6 W", "3.9 W", "4 W", "4.2 W"])
def test_chance_that_a_limit_is_kept(sideband_sheet: ProofSheet, said: str) -> None:
    """It is the normal distribution's; a tolerance of 5 % has the standard deviation 5 % / √3."""
    row = row_of(sideband_sheet, "carrier-power", said, "5 %")
    (held,) = [each for each in row.held if each.bound.limit.id == "carrier-power"]
    value = float(said.split()[0])
    expected = norm.cdf(4.0, loc=value, scale=0.05 * value / 3.0**0.5)
    assert held.p_kept == pytest.approx(expected, abs=1e-9)


def test_what_accuracy_would_tell(sideband_sheet: ProofSheet) -> None:
    """With the accuracy named as needed the same reading is told; with a little worse it is not."""
    row = row_of(sideband_sheet, "carrier-power", "3.9 W", "5 %")
    (held,) = [each for each in row.held if each.bound.limit.id == "carrier-power"]
    good = held.judgement.needed * 3.0**0.5 / 2.0
    for factor, verdict in ((0.99, "pass"), (1.01, "cannot-tell")):
        told = f"{good * factor:.6f} W"
        assert row_of(sideband_sheet, "carrier-power", "3.9 W", told).verdict == verdict


def best_reading(point: Point) -> Reading:
    """Return a reading that keeps every figure of a point by far, with a perfect instrument."""
    if not point.unit:
        return Reading(point.id, "yes", "yes", is_seen=True)
    value = 0.0 if point.quantity == "frequency-error" else None
    for bound in point.bounds["us"]:
        if value is None and not bound.against:
            value = bound.limit.value * (0.9 if bound.limit.direction == "at-most" else 1.02)
    return Reading(point.id, "made", "made", 80.0 if value is None else value, 1e-9)


def test_a_set_is_right_only_when_everything_was_measured(sideband_sheet: ProofSheet) -> None:
    """One point left out, whichever, and it is not called right."""
    rules = rules_of(sideband_sheet, "us")
    readings = {point.id: best_reading(point) for point in sideband_sheet.points}
    whole = prove(sideband_sheet, rules, readings)
    assert [(row.point.id, row.verdict) for row in whole.rows if row.verdict != "pass"] == []
    assert whole.verdict == "right"
    for left_out in readings:
        rest = {name: each for name, each in readings.items() if name != left_out}
        assert prove(sideband_sheet, rules, rest).verdict == "not-shown", left_out
