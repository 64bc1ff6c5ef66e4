"""Programming lines: their states on every channel, and what a stuck one does."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine.radio.plans.arithmetic import count, vco
from engine.radio.plans.plan import Direction, Lines, Plan


@dataclass(frozen=True, slots=True)
class StuckLine:
    """A line that stays at one state, 0 or 1, whatever the channel switch says."""

    line: str
    state: int


def stuck_lines(lines: Lines) -> tuple[StuckLine, ...]:
    """Return every way one switched line can be stuck."""
    switched = [name for name in lines.weights if name not in lines.fixed]
    return tuple(StuckLine(name, state) for name in switched for state in (0, 1))


def states(lines: Lines, channel: int) -> dict[str, int]:
    """Return the state, 0 or 1, of every line on a channel.

    Raises:
        ValueError: the lines cannot make the number.
    """
    return {name: int(is_high) for name, is_high in _bits(lines, lines.codes[channel])}


def count_with(plan: Plan, direction: Direction, channel: int, stuck: StuckLine) -> int | None:
    """Return what is counted with a line stuck; None when the chip knows no such code."""
    assert plan.lines is not None
    right = states(plan.lines, channel)
    now = right[stuck.line]
    if now == stuck.state:
        return count(plan, direction, channel)
    change = (stuck.state - now) * plan.lines.weights[stuck.line]
    if plan.lines.coding == "rom":
        seen = {**right, stuck.line: stuck.state}
        other = _coded(plan.lines, plan.lines.codes[channel] + change, seen)
        return count(plan, direction, other) if other is not None else None
    n = count(plan, direction, channel) + change
    return n if n > 0 else None


def in_reach(plan: Plan, mode: str, direction: Direction, n: int) -> bool:
    """Whether the VCO can follow a count; a plan that does not tell its reach follows any."""
    if plan.vco_reach_hz is None:
        return True
    low, high = plan.vco_reach_hz
    return low <= vco(plan, mode, direction, n).hz(plan) <= high


def _coded(lines: Lines, code: int, seen: dict[str, int]) -> int | None:
    """Return the channel that a code stands for, None when it stands for none.

    The lines are compared as well as their sum: 8 and 2 high is no digit, though it adds up to ten.
    """
    channels = (channel for channel, its in lines.codes.items() if its == code)
    return next((channel for channel in channels if states(lines, channel) == seen), None)


def _bits(lines: Lines, number: int) -> Iterator[tuple[str, bool]]:
    """Yield the lines that add up to a number, largest weight first.

    Largest first is right for plain binary, and for decimal digits of 8, 4, 2, 1 as well: a digit
    of up to nine is made without looking at its neighbours.
    """
    fixed = sum(lines.weights[name] for name, state in lines.fixed.items() if state)
    left = number - fixed
    chosen = {name: bool(state) for name, state in lines.fixed.items()}
    switched = [name for name in lines.weights if name not in lines.fixed]
    for name in sorted(switched, key=lambda each: -lines.weights[each]):
        chosen[name] = lines.weights[name] <= left
        left -= lines.weights[name] * chosen[name]
    if left:
        raise ValueError(f"the lines cannot make {number}: {left} is left over")
    yield from ((name, chosen[name]) for name in lines.weights)
