"""The same arithmetic on synthesisers of other services, from printed examples."""

from dataclasses import replace
from fractions import Fraction

import pytest

from engine.radio.plans.arithmetic import step, transmitted
from engine.radio.plans.checking import faults, needed
from engine.radio.plans.lines import states
from engine.radio.plans.plan import Counts, Direction, Lines, Mode, Oscillator, Plan

DIRECTIONS: tuple[Direction, ...] = ("receive", "transmit")


def oscillator(name: str, hz: int) -> Oscillator:
    """Return a crystal."""
    return Oscillator(name, name, Fraction(hz))


def matrix_mobile() -> Plan:
    """Return a VHF mobile with a diode matrix: N = (0.5 TX - 2 Xr) x 400, as its manual prints it.

    The manual gives transmit alone. Here receive is the same loop with an intermediate frequency
    of 77.5 MHz, so that half the carrier is its local oscillator, and steps of 2.5 kHz are made
    from 10.240 MHz; both are for the sake of a whole plan.
    """
    weights = {
        str(digit * ten): digit * ten for ten in (1, 10, 100, 1000) for digit in (8, 4, 2, 1)
    }
    return Plan(
        id="matrix-mobile",
        title="VHF mobile with a diode matrix",
        source="a programming manual",
        carriers={1: Fraction(155_000_000)},
        grid_hz=Fraction(5_000),
        oscillators={
            "reference": oscillator("reference", 10_240_000),
            "xr": oscillator("xr", 35_100_000),
        },
        modes={"fm": Mode("fm", "FM", {}, False)},
        reference="reference",
        divider_input={"vco": 1, "xr": -2},
        counts={each: Counts({1: 2920}, 4096) for each in DIRECTIONS},
        lo={"vco": 1},
        second_lo={},
        if1_hz=Fraction(77_500_000),
        if2_hz=Fraction(0),
        carrier="",
        transmit={"vco": 2},
        lines=Lines("bcd", weights, {}, 0, {1: 2920}),
    )


def test_diode_matrix_of_a_vhf_mobile() -> None:
    """155.00 MHz with 35.10 MHz is N = 2920: diodes for 2000, 800 and 100, and 20."""
    plan = matrix_mobile()
    assert needed(plan, "fm", "transmit", 1) == 2920
    assert transmitted(plan, "fm", 2920).hz(plan) == 155_000_000
    assert faults(plan) == ()
    assert plan.lines is not None
    assert {name for name, is_high in states(plan.lines, 1).items() if is_high} == {
        "2000", "800", "100", "20",
    }  # fmt: skip


@pytest.mark.parametrize(("n", "low_eleven_bits"), [(5000, "01110001000"), (5500, "10101111100")])
def test_bits_of_a_parallel_programmed_chip(n: int, low_eleven_bits: str) -> None:
    """A local oscillator of 5.0 to 5.5 MHz in steps of 1 kHz: the low bits as printed."""
    lines = Lines("binary", {f"n{bit}": 2**bit for bit in range(14)}, {}, 1, {1: n})
    high = states(lines, 1)
    assert "".join(str(high[f"n{bit}"]) for bit in reversed(range(11))) == low_eleven_bits


def test_step_of_a_large_reference_divider() -> None:
    """2.048 MHz over 2048 is 1 kHz."""
    counts = {each: Counts({1: 5000}, 2048) for each in DIRECTIONS}
    crystals = {"reference": oscillator("reference", 2_048_000)}
    plan = replace(matrix_mobile(), counts=counts, oscillators=crystals)
    assert step(plan, "fm", "receive").hz(plan) == 1_000
