"""Everything a plan says, as rows: what a terminal and a page lay out as tables."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from engine.radio.plans.arithmetic import (
    Frequency,
    centre,
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
from engine.radio.plans.lines import states
from engine.radio.plans.plan import Direction, Oscillator, Plan
from engine.radio.plans.stuck import DIRECTIONS, StuckEffect, stuck_effects


@dataclass(frozen=True, slots=True)
class ChannelRow:
    """What stands everywhere on one channel; frequencies in Hz."""

    channel: int
    carrier_hz: Fraction
    n_receive: int
    n_transmit: int
    vco_receive_hz: Fraction
    vco_transmit_hz: Fraction
    lo_hz: Fraction
    transmit_hz: Fraction
    image_hz: Fraction
    lines: dict[str, int]


@dataclass(frozen=True, slots=True)
class PointRow:
    """What stands at one place on the first and the last channel of the dial.

    The shifts, for 1 ppm of each crystal that shows here, are those on the first channel.
    """

    title: str
    first_hz: Fraction
    last_hz: Fraction
    hz_per_ppm: dict[str, float]


@dataclass(frozen=True, slots=True)
class PlanSheet:
    """A plan in one mode, worked out."""

    plan: Plan
    mode: str
    channels: tuple[ChannelRow, ...]
    points: tuple[PointRow, ...]
    stuck: tuple[StuckEffect, ...]

    @property
    def has_two_counts(self) -> bool:
        """Whether transmit counts, or tunes the VCO, otherwise than receive."""
        return any(
            (row.n_receive, row.vco_receive_hz) != (row.n_transmit, row.vco_transmit_hz)
            for row in self.channels
        )


def plan_sheet(plan: Plan, mode: str) -> PlanSheet:
    """Return everything a plan says in one of its modes."""
    channels = tuple(_channel(plan, mode, channel) for channel in plan.carriers)
    return PlanSheet(plan, mode, channels, _points(plan, mode), stuck_effects(plan, mode))


def _channel(plan: Plan, mode: str, channel: int) -> ChannelRow:
    n_receive, n_transmit = (count(plan, each, channel) for each in DIRECTIONS)
    return ChannelRow(
        channel=channel,
        carrier_hz=plan.carriers[channel],
        n_receive=n_receive,
        n_transmit=n_transmit,
        vco_receive_hz=vco(plan, mode, "receive", n_receive).hz(plan),
        vco_transmit_hz=vco(plan, mode, "transmit", n_transmit).hz(plan),
        lo_hz=local_oscillator(plan, mode, n_receive).hz(plan),
        transmit_hz=transmitted(plan, mode, n_transmit).hz(plan),
        image_hz=image(plan, mode, channel),
        lines=states(plan.lines, channel) if plan.lines else {},
    )


def _points(plan: Plan, mode: str) -> tuple[PointRow, ...]:
    """Return the points of the set, the crystals last."""
    rows = [*_loop_points(plan, mode), *_signal_points(plan, mode)]
    used = {name for row in rows for name in row.hz_per_ppm}
    crystals = (each for name, each in plan.oscillators.items() if name in used)
    return (*rows, *(_crystal(plan, each) for each in crystals))


def _loop_points(plan: Plan, mode: str) -> Iterator[PointRow]:
    """Yield what stands in the loop: once where transmit is as receive."""
    for title, formula in (
        ("VCO", vco),
        ("Divider input", divider_input),
        ("Phase detector step", lambda plan, mode, direction, n: step(plan, mode, direction)),
    ):
        receive, transmit = (
            _point(plan, title, direction, partial(formula, plan, mode, direction))
            for direction in DIRECTIONS
        )
        if receive == transmit:
            yield receive
        else:
            yield replace(receive, title=f"{title}, receive")
            yield replace(transmit, title=f"{title}, transmit")


def _signal_points(plan: Plan, mode: str) -> Iterator[PointRow]:
    """Yield what stands between aerial and speech."""
    point = partial(_point, plan)
    yield point("First local oscillator", "receive", lambda n: local_oscillator(plan, mode, n))
    if plan.modes[mode].second_if:
        second = second_oscillator(plan, mode)
        yield point("Second local oscillator", "receive", lambda _: second)
    between = first_if(plan, mode)
    yield point("First intermediate frequency", "receive", lambda _: between)
    yield point("Middle of the receiver", "receive", lambda n: centre(plan, mode, n))
    yield point("Carrier sent", "transmit", lambda n: transmitted(plan, mode, n))


def _point(
    plan: Plan, title: str, direction: Direction, formula: Callable[[int], Frequency]
) -> PointRow:
    channels = list(plan.carriers)
    first, last = (formula(count(plan, direction, each)) for each in (channels[0], channels[-1]))
    return PointRow(title, first.hz(plan), last.hz(plan), first.hz_per_ppm(plan))


def _crystal(plan: Plan, crystal: Oscillator) -> PointRow:
    alone = Frequency({crystal.id: Fraction(1)})
    return PointRow(crystal.title, crystal.hz, crystal.hz, alone.hz_per_ppm(plan))
