"""Programming lines: every printed state, and every result of a stuck one."""

from dataclasses import replace
from fractions import Fraction

import pytest

from engine.radio.plans.arithmetic import count, transmitted
from engine.radio.plans.lines import StuckLine, count_with, in_reach, states, stuck_lines
from engine.radio.plans.plan import Lines, Plan
from engine.radio.plans.stuck import sent_with, stuck_effects
from tests.radio.plans.conftest import rows

MHZ = 1_000_000
PRINTED = rows("p1-program-lines.csv")
NINE = tuple(f"p{number}" for number in range(9))
STUCK = [(name, state) for name in NINE[:7] for state in (0, 1)]


def lines_of(plan: Plan) -> Lines:
    """Return the lines of a plan that has some."""
    assert plan.lines is not None
    return plan.lines


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: row["channel"])
def test_every_printed_state(row: dict[str, str], plans: dict[str, Plan]) -> None:
    """All nine lines on every channel, as printed."""
    channel = int(row["channel"])
    assert count(plans["P1"], "receive", channel) == int(row["n"])
    assert states(lines_of(plans["P1"]), channel) == {name: int(row[name]) for name in NINE}


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: row["channel"])
def test_what_is_sent_with_a_line_stuck(row: dict[str, str], plans: dict[str, Plan]) -> None:
    """Each of the seven switched lines, stuck at 0 and at 1, sends what the table says."""
    plan, channel = plans["P1"], int(row["channel"])
    sent = {
        (name, state): sent_with(plan, "am", channel, StuckLine(name, state))
        for name, state in STUCK
    }
    printed = {
        (name, state): Fraction(row[f"tx_if_{name}_stuck_{state}"]) * MHZ for name, state in STUCK
    }
    assert sent == printed


def test_how_many_channels_a_stuck_line_moves(plans: dict[str, Plan]) -> None:
    """Channels wrong and the shift in kHz, as in the summary of the same table."""
    effects = stuck_effects(plans["P1"], "am")
    summary = [(each.fault.line, len(each.shifts_hz), each.shift_hz) for each in effects]
    numbers = [19, 21, 20, 20, 20, 20, 19, 21, 15, 25, 29, 11, 9, 31]
    shifts = [sign * 10_000 * 2**line for line in range(7) for sign in (1, -1)]
    names = [name for name, _ in STUCK]
    assert summary == list(zip(names, numbers, shifts, strict=True))


def test_right_channels_of_the_large_lines(plans: dict[str, Plan]) -> None:
    """P4 low is right on 1 to 9 and 23 to 38, P5 low on 1 to 9, 39, 40; P6 wrong on 1 to 9."""
    moved = {
        (each.fault.line, each.fault.state): set(each.shifts_hz)
        for each in stuck_effects(plans["P1"], "am")
    }
    every = set(range(1, 41))
    assert every - moved["p4", 0] == {*range(1, 10), *range(23, 39)}
    assert every - moved["p5", 0] == {*range(1, 10), 39, 40}
    assert moved["p6", 0] == set(range(1, 10))


def test_signs_turn_over_where_the_vco_rises(plans: dict[str, Plan]) -> None:
    """In the three-crystal plan a line stuck low sends too low."""
    low = {each.fault.line: each.shift_hz for each in stuck_effects(plans["P5"], "fm")[::2]}
    assert [low[name] for name in ("p0", "p1", "p2", "p3")] == [-10_000, -20_000, -40_000, -80_000]


@pytest.mark.parametrize(
    ("n", "high"),
    [
        (91, {"b80", "b10", "b1"}),
        (99, {"b80", "b10", "b8", "b1"}),
        (100, {"b100"}),
        (135, {"b100", "b20", "b10", "b4", "b1"}),
    ],
)
def test_sums_of_decimal_lines(n: int, high: set[str], plans: dict[str, Plan]) -> None:
    """The sums of the sheet; 40 and 200 are never needed."""
    lines = replace(lines_of(plans["P3"]), codes={1: n})  # 99 falls into a gap between channels
    assert {name for name, state in states(lines, 1).items() if state} == high


@pytest.mark.parametrize("name", ["P1", "P2", "P3", "P4", "P5", "P6", "P7"])
def test_lines_add_up_to_their_number(name: str, plans: dict[str, Plan]) -> None:
    """On every channel the weights of the high lines make the count, or the code."""
    lines = lines_of(plans[name])
    for channel, code in lines.codes.items():
        high = [line for line, state in states(lines, channel).items() if state]
        assert sum(lines.weights[line] for line in high) == code
        assert all(states(lines, channel)[line] == state for line, state in lines.fixed.items())


def test_wired_lines_are_never_stuck(plans: dict[str, Plan]) -> None:
    """What is wired for good is not switched."""
    names = {each.line for each in stuck_lines(lines_of(plans["P1"]))}
    assert names == set(NINE[:7])


def test_a_code_that_is_no_channel_counts_nothing(plans: dict[str, Plan]) -> None:
    """Code 40 with the line for 1 stuck high is 41, which the chip does not know."""
    plan = plans["P2"]
    assert count_with(plan, "receive", 40, StuckLine("d0", 1)) is None
    assert sent_with(plan, "am", 40, StuckLine("d0", 1)) is None
    assert count_with(plan, "receive", 39, StuckLine("d0", 0)) == count(plan, "receive", 38)
    assert count_with(plan, "receive", 39, StuckLine("d0", 1)) == count(plan, "receive", 39)


def test_eight_and_two_are_no_digit(plans: dict[str, Plan]) -> None:
    """Lines that add up to ten are not channel ten when no digit looks like that."""
    assert count_with(plans["P7"], "receive", 8, StuckLine("u2", 1)) is None


def test_nothing_is_counted_when_no_line_is_high(plans: dict[str, Plan]) -> None:
    """A count of zero divides nothing."""
    plan = plans["P3"]
    (channel,) = (c for c, n in plan.counts["receive"].by_channel.items() if n == 100)
    assert count_with(plan, "receive", channel, StuckLine("b100", 0)) is None


def test_a_vco_follows_only_so_far(plans: dict[str, Plan]) -> None:
    """16.75 to 17.5 MHz in the three-crystal plan; a plan that does not tell follows any count."""
    plan = plans["P5"]
    followed = [n for n in range(60, 170) if in_reach(plan, "fm", "receive", n)]
    assert (followed[0], followed[-1]) == (76, 150)
    assert in_reach(replace(plan, vco_reach_hz=None), "fm", "receive", 500)


def test_a_plan_without_lines_has_none_to_stick(plans: dict[str, Plan]) -> None:
    """Nothing is known of lines that are not written down."""
    assert stuck_effects(replace(plans["P5"], lines=None), "fm") == ()


def test_a_lost_channel_is_told_apart_from_a_wrong_one(plans: dict[str, Plan]) -> None:
    """With P5 stuck low the VCO cannot follow on channels 6 to 17, and 18 to 37 are moved."""
    plan = plans["P5"]
    effects = {(each.fault.line, each.fault.state): each for each in stuck_effects(plan, "fm")}
    low = effects["p5", 0]
    lost = [c for c in plan.carriers if 96 <= 90 + c <= 127 and 90 + c - 32 < 76]
    moved = [c for c in plan.carriers if 96 <= 90 + c <= 127 and 90 + c - 32 >= 76]
    assert (list(low.lost), list(low.shifts_hz)) == (lost, moved)
    assert transmitted(plan, "fm", 127 - 32).hz(plan) - plan.carriers[37] == low.shifts_hz[37]
