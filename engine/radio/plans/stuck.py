"""What a stuck programming line does to every channel: a plan's own table of faults."""

from dataclasses import dataclass
from fractions import Fraction

from engine.radio.plans.arithmetic import count, transmitted
from engine.radio.plans.lines import StuckLine, count_with, in_reach, stuck_lines
from engine.radio.plans.plan import Direction, Plan

DIRECTIONS: tuple[Direction, ...] = ("receive", "transmit")


@dataclass(frozen=True, slots=True)
class StuckEffect:
    """What one stuck line does.

    `shifts_hz` has the channels that are sent elsewhere, with how far; `lost` those on which
    nothing can be counted, or the VCO cannot follow.
    """

    fault: StuckLine
    shifts_hz: dict[int, Fraction]
    lost: tuple[int, ...]

    @property
    def shift_hz(self) -> Fraction | None:
        """Return the shift when it is the same on every channel that moves."""
        different = set(self.shifts_hz.values())
        return different.pop() if len(different) == 1 else None


def stuck_effects(plan: Plan, mode: str) -> tuple[StuckEffect, ...]:
    """Return what each line does when stuck at 0 and at 1; nothing when no lines are known."""
    faults = stuck_lines(plan.lines) if plan.lines else ()
    return tuple(_effect(plan, mode, fault) for fault in faults)


def sent_with(plan: Plan, mode: str, channel: int, fault: StuckLine) -> Fraction | None:
    """Return the carrier in Hz with a line stuck, None when the loop cannot lock there."""
    counts = {each: count_with(plan, each, channel, fault) for each in DIRECTIONS}
    for direction, n in counts.items():
        if n is None or not in_reach(plan, mode, direction, n):
            return None
    return transmitted(plan, mode, counts["transmit"] or 0).hz(plan)


def _effect(plan: Plan, mode: str, fault: StuckLine) -> StuckEffect:
    sent = {channel: sent_with(plan, mode, channel, fault) for channel in plan.carriers}
    right = {
        channel: transmitted(plan, mode, count(plan, "transmit", channel)).hz(plan)
        for channel in plan.carriers
    }
    shifts = {channel: hz - right[channel] for channel, hz in sent.items() if hz is not None}
    lost = tuple(channel for channel, hz in sent.items() if hz is None)
    return StuckEffect(fault, {channel: by for channel, by in shifts.items() if by}, lost)
