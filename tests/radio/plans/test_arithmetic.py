"""Every frequency of seven plans on every channel, held against tables from outside."""

from fractions import Fraction

import pytest

from engine.radio.plans.arithmetic import (
    count,
    divider_input,
    first_if,
    image,
    local_oscillator,
    second_oscillator,
    step,
    transmitted,
    vco,
)
from engine.radio.plans.plan import Plan
from tests.radio.plans.conftest import rows

MHZ = 1_000_000
SYNTH = rows("synth-plans.csv")
SENSITIVITIES = rows("plan-sensitivities.csv")


def computed(plan: Plan, mode: str, channel: int) -> dict[str, Fraction]:
    """Return what a plan says of a channel, by the columns of the table, MHz but for counts."""
    n_rx, n_tx = count(plan, "receive", channel), count(plan, "transmit", channel)
    hz = {
        "freq_mhz": plan.carriers[channel],
        "vco_rx_mhz": vco(plan, mode, "receive", n_rx).hz(plan),
        "vco_tx_mhz": vco(plan, mode, "transmit", n_tx).hz(plan),
        "lo1_mhz": local_oscillator(plan, mode, n_rx).hz(plan),
        "divider_in_mhz": divider_input(plan, mode, "receive", n_rx).hz(plan),
        "if1_mhz": first_if(plan, mode).hz(plan),
        "lo2_mhz": second_oscillator(plan, mode).hz(plan),
        "tx_mhz": transmitted(plan, mode, n_tx).hz(plan),
        "image_mhz": image(plan, mode, channel),
    }
    counts = {"n_rx": Fraction(n_rx), "n_tx": Fraction(n_tx)}
    return counts | {name: each / MHZ for name, each in hz.items()}


@pytest.mark.parametrize(
    "row", SYNTH, ids=lambda row: f"{row['plan']}-{row['mode']}-{row['channel']}"
)
def test_every_row_of_the_worked_plans(row: dict[str, str], plans: dict[str, Plan]) -> None:
    """Counts and frequencies are exactly those of the table, in every mode a row stands for."""
    plan = plans[row["plan"][:2]]
    for mode in row["mode"].lower().split("/"):
        got = computed(plan, mode, int(row["channel"]))
        if not plan.modes[mode].second_if:  # a row shared with AM names AM's second oscillator
            del got["lo2_mhz"]
        # The table has no divider input where nothing is mixed before the divider.
        table = {name: Fraction(row[name]) for name in got if row[name]}
        assert {name: got[name] for name in table} == table


def test_the_table_is_whole() -> None:
    """All 360 rows are there: seven plans, two of them with a lower sideband of its own."""
    assert len(SYNTH) == 360


@pytest.mark.parametrize(
    "row", SENSITIVITIES, ids=lambda row: "-".join(row[key] for key in ("plan", "at", "oscillator"))
)
def test_what_one_ppm_does_on_channel_one(row: dict[str, str], plans: dict[str, Plan]) -> None:
    """The shift is that of the formula, to the last digit printed."""
    plan, mode = plans[row["plan"]], row["mode"]
    n_rx, n_tx = count(plan, "receive", 1), count(plan, "transmit", 1)
    at = {
        "transmit": transmitted(plan, mode, n_tx),
        "lo": local_oscillator(plan, mode, n_rx),
        "second": second_oscillator(plan, mode),
    }
    printed = row["hz_per_ppm"]
    tolerance = 0.5001 * 10 ** -len(printed.partition(".")[2])
    shift = at[row["at"]].hz_per_ppm(plan)[row["oscillator"]]
    assert shift == pytest.approx(float(printed), abs=tolerance)


def test_what_is_not_in_a_formula_does_not_move_it(plans: dict[str, Plan]) -> None:
    """The transmit crystal of the three-crystal plan moves transmit and leaves receive alone."""
    plan = plans["P5"]
    assert set(transmitted(plan, "fm", 91).multiples) == {"reference", "loop", "offset"}
    assert set(local_oscillator(plan, "fm", 91).multiples) == {"reference", "loop"}


def test_a_pair_of_readings_separates_the_crystals(plans: dict[str, Plan]) -> None:
    """10 ppm on the loop crystal is 160 Hz both ways, on the transmit crystal 107 and 0."""
    plan = plans["P5"]
    sent, tuned = transmitted(plan, "fm", 91), local_oscillator(plan, "fm", 91)
    pairs = {
        name: tuple(round(10 * each.hz_per_ppm(plan).get(name, 0.0)) for each in (sent, tuned))
        for name in ("loop", "offset")
    }
    assert pairs == {"loop": (160, 160), "offset": (107, 0)}


@pytest.mark.parametrize(
    ("plan", "mode", "mhz"),
    [
        ("P1", "am", "48.355"),
        ("P4", "am", "48.355"),
        ("P2", "fm", "5.575"),
        ("P6", "fm", "5.575"),
        ("P3", "usb", "42.570"),
        ("P5", "fm", "6.21125"),
        ("P7", "fm", "6.21125"),
    ],
)
def test_image_of_channel_one(plan: str, mode: str, mhz: str, plans: dict[str, Plan]) -> None:
    """The image is as far on the other side of the oscillator."""
    assert image(plans[plan], mode, 1) == Fraction(mhz) * MHZ


@pytest.mark.parametrize(
    ("name", "direction", "hz"),
    [
        ("P1", "receive", 10_000),
        ("P2", "receive", 5_000),
        ("P2", "transmit", 2_500),
        ("P7", "receive", 1_250),
    ],
)
def test_steps_of_the_reference(name: str, direction: str, hz: int, plans: dict[str, Plan]) -> None:
    """10.240 MHz over 1024, 2048, 4096 and 8192."""
    plan = plans[name]
    assert step(plan, next(iter(plan.modes)), direction).hz(plan) == hz  # type: ignore[arg-type]


def test_printed_anchors_of_the_table_chip(plans: dict[str, Plan]) -> None:
    """Channels 1, 22 and 40 as the note prints them, and 91 counts are 455 kHz."""
    plan = plans["P2"]
    anchors = {c: (count(plan, "receive", c), count(plan, "transmit", c)) for c in (1, 22, 40)}
    assert anchors == {1: (1206, 1297), 22: (1258, 1349), 40: (1294, 1385)}
    assert 91 * step(plan, "fm", "receive").hz(plan) == plan.if2_hz


def test_band_crystals_move_a_whole_band(plans: dict[str, Plan]) -> None:
    """0.225 MHz on the loop crystal is 45 slots of 10 kHz on the local oscillator."""
    plan = plans["P4"]
    multiple = local_oscillator(plan, "am", 255).multiples["loop"]
    assert multiple * 225_000 == 45 * plan.grid_hz


def test_loop_crystals_are_exact_thirds(plans: dict[str, Plan]) -> None:
    """Printed as about 11.2858 and 11.2842 MHz, they are thirds."""
    plan = plans["P3"]
    assert 3 * plan.oscillators["loop"].hz == 33_857_500
    assert 3 * plan.oscillators["loop-lower"].hz == 33_852_500
    printed = [f"{float(plan.oscillators[name].hz) / MHZ:.4f}" for name in ("loop", "loop-lower")]
    assert printed == ["11.2858", "11.2842"]
