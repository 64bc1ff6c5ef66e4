"""Why a plan cannot work: every reason, and the plans that work."""

from dataclasses import replace
from fractions import Fraction

import pytest

from engine.radio.plans.arithmetic import is_lo_above
from engine.radio.plans.checking import Fault, faults, needed
from engine.radio.plans.plan import Counts, Direction, Plan

UK = {channel: Fraction(27_601_250 + 10_000 * (channel - 1)) for channel in range(1, 41)}


def moved_to_uk(plan: Plan, first: int, per_slot: int, divide: dict[Direction, int]) -> Plan:
    """Return a plan with the channels of 1981 and the nearest whole counts there are."""
    by_channel = {channel: first + per_slot * (channel - 1) for channel in UK}
    counts = {direction: Counts(by_channel, number) for direction, number in divide.items()}
    return replace(plan, carriers=UK, counts=counts, lines=None)


@pytest.mark.parametrize("name", ["P1", "P2", "P3", "P4", "P5", "P6", "P7"])
def test_every_plan_of_the_knowledge_works(name: str, plans: dict[str, Plan]) -> None:
    """No reason is found against any of them."""
    assert faults(plans[name]) == ()


def test_up_mixing_cannot_make_uk_channels(plans: dict[str, Plan]) -> None:
    """(20.480 - 17.81625) / 0.01 is 266.375."""
    plan = moved_to_uk(plans["P1"], 266, -1, {"receive": 1024, "transmit": 1024})
    assert [each.reason for each in faults(plan)] == [
        "266.375 counts for channel 1 to be received on 27.60125 MHz (39 more channels alike); "
        "a whole count is needed.",
        "266.375 counts for channel 1 to be sent on 27.60125 MHz (39 more channels alike); "
        "a whole count is needed.",
    ]


def test_direct_steps_cannot_make_uk_channels(plans: dict[str, Plan]) -> None:
    """16.90625 / 0.005 is 3381.25; half the carrier in steps of 1.25 kHz is 11040.5."""
    plan = moved_to_uk(plans["P6"], 3381, 2, {"receive": 2048, "transmit": 8192})
    assert [each.reason for each in faults(plan)] == [
        "3381.25 counts for channel 1 to be received on 27.60125 MHz (39 more channels alike); "
        "a whole count is needed.",
        "11040.5 counts for channel 1 to be sent on 27.60125 MHz (39 more channels alike); "
        "a whole count is needed.",
    ]


def test_what_is_needed_is_what_is_counted(plans: dict[str, Plan]) -> None:
    """Solving for the count gives back the count of every channel, in every mode."""
    for plan in plans.values():
        for mode in plan.modes:
            for direction, counts in plan.counts.items():
                wanted = {each: needed(plan, mode, direction, each) for each in plan.carriers}
                assert wanted == counts.by_channel


def test_sidebands_by_the_side_of_the_filter(plans: dict[str, Plan]) -> None:
    """Above the signal the upper sideband's carrier is above the filter: 5 kHz apart, and 3."""
    for name, apart_hz in (("P3", 5_000), ("P4", 3_000)):
        plan = plans[name]
        upper, lower = (plan.oscillator("carrier", mode).hz for mode in ("usb", "lsb"))
        assert is_lo_above(plan, "usb")
        assert plan.filter_hz is not None
        assert lower < plan.filter_hz < upper
        assert upper - lower == apart_hz


def test_sidebands_exchanged_are_refused(plans: dict[str, Plan]) -> None:
    """Either mode is told with the side its carrier must be on."""
    plan = plans["P4"]
    usb, lsb = plan.modes["usb"], plan.modes["lsb"]
    exchanged = {
        **plan.modes,
        "usb": replace(usb, sideband="lower"),
        "lsb": replace(lsb, sideband="upper"),
    }
    assert faults(replace(plan, modes=exchanged)) == (
        Fault(
            ("modes", "usb"),
            "the carrier at 10.695 MHz and the filter at 10.6935 MHz, "
            "with the local oscillator above the signal",
            "the carrier below the filter",
            "For upper sideband name the carrier crystal that is below the filter.",
        ),
        Fault(
            ("modes", "lsb"),
            "the carrier at 10.692 MHz and the filter at 10.6935 MHz, "
            "with the local oscillator above the signal",
            "the carrier above the filter",
            "For lower sideband name the carrier crystal that is above the filter.",
        ),
    )


def test_below_the_signal_nothing_is_turned_over(plans: dict[str, Plan]) -> None:
    """With the oscillator below, the upper sideband's carrier is below the filter."""
    plan = plans["P5"]
    below = replace(
        plan,
        modes={"usb": replace(plan.modes["fm"], id="usb", sideband="upper", second_if=False)},
        carrier="offset",
        filter_hz=plan.oscillators["offset"].hz + 1_500,
    )
    assert not is_lo_above(below, "usb")
    assert faults(below) == ()
    above = replace(below, filter_hz=plan.oscillators["offset"].hz - 1_500)
    assert [each.expected for each in faults(above)] == ["the carrier below the filter"]


def test_one_code_for_two_channels(plans: dict[str, Plan]) -> None:
    """The chip cannot tell them apart, though their counts differ."""
    plan = plans["P2"]
    assert plan.lines is not None
    lines = replace(plan.lines, codes={**plan.lines.codes, 7: 6})
    assert [each.reason for each in faults(replace(plan, lines=lines))] == [
        "The code 6 on channels 6 and 7; a code of its own for each is needed."
    ]
