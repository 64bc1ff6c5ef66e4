"""Why a plan cannot work: every fault with its reason, before anybody tunes by it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import chain

from engine.radio.plans.arithmetic import (
    Frequency,
    centre,
    count,
    divider_input,
    image,
    is_lo_above,
    transmitted,
    vco,
)
from engine.radio.plans.lines import states
from engine.radio.plans.plan import Direction, Lines, Plan
from engine.radio.plans.writing import figure, mhz

DIRECTIONS: tuple[Direction, ...] = ("receive", "transmit")
DONE = {"receive": "received", "transmit": "sent"}


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One reason why a plan cannot work; `part` is where to look in the plan's file."""

    part: tuple[str, ...]
    found: str
    expected: str
    remedy: str

    @property
    def reason(self) -> str:
        """Return it as a sentence."""
        return f"{self.found[0].upper()}{self.found[1:]}; {self.expected} is needed."


def faults(plan: Plan) -> tuple[Fault, ...]:
    """Return every fault of a plan, those of the counts first; none for a plan that works."""
    by_mode = chain(
        _in_modes(plan, _off_channel),
        _in_modes(plan, _inputs),
        _in_modes(plan, _reach),
        _in_modes(plan, _images),
    )
    lines = _line_faults(plan.lines) if plan.lines else ()
    return (*by_mode, *_shared_counts(plan), *lines, *_sidebands(plan))


def needed(plan: Plan, mode: str, direction: Direction, channel: int) -> Fraction:
    """Return the count that puts a channel where it belongs, whole or not."""
    at_none, at_one = (_tuned(plan, mode, direction, n).hz(plan) for n in (0, 1))
    return (plan.carriers[channel] - at_none) / (at_one - at_none)


def _tuned(plan: Plan, mode: str, direction: Direction, n: int) -> Frequency:
    """Return the frequency that a count stands for at the aerial."""
    return centre(plan, mode, n) if direction == "receive" else transmitted(plan, mode, n)


def _in_modes(plan: Plan, check: Callable[[Plan, str], Iterator[Fault]]) -> Iterator[Fault]:
    """Yield each fault once, with its modes when it is not in all of them."""
    found: dict[Fault, list[str]] = {}
    for name, mode in plan.modes.items():
        for fault in check(plan, name):
            found.setdefault(fault, []).append(mode.title)
    for fault, titles in found.items():
        where = f" in {' and '.join(titles)}" if len(titles) < len(plan.modes) else ""
        yield replace(fault, found=f"{fault.found}{where}")


def _off_channel(plan: Plan, mode: str) -> Iterator[Fault]:
    for direction in DIRECTIONS:
        wanted = {each: needed(plan, mode, direction, each) for each in plan.carriers}
        broken = [each for each, n in wanted.items() if n.denominator > 1]
        off = [each for each, n in wanted.items() if n != count(plan, direction, each)]
        if broken:
            first, part = broken[0], ("counts", direction)
            found = f"{figure(wanted[first])} counts for channel {first} to be "
            found += f"{DONE[direction]} on {mhz(plan.carriers[first])} MHz{_others(broken)}"
            remedy = "Other crystals, another mixing or a finer step: no divider counts a part."
            yield Fault(part, found, "a whole count", remedy)
        elif off:
            yield _one_off(plan, mode, direction, off, wanted[off[0]])


def _one_off(
    plan: Plan, mode: str, direction: Direction, off: list[int], better: Fraction
) -> Fault:
    """Return the fault of channels that are counted, but not where they belong."""
    first, n = off[0], count(plan, direction, off[0])
    at = mhz(_tuned(plan, mode, direction, n).hz(plan))
    found = f"channel {first} {DONE[direction]} on {at} MHz with a count of {n}{_others(off)}"
    remedy = f"With these crystals and this mixing channel {first} needs {figure(better)}."
    return Fault(("counts", direction), found, f"{mhz(plan.carriers[first])} MHz", remedy)


def _inputs(plan: Plan, mode: str) -> Iterator[Fault]:
    """Yield counts and VCO frequencies that are not above 0."""
    for direction in DIRECTIONS:
        counts = plan.counts[direction].by_channel
        low = [each for each, n in counts.items() if n < 1]
        if low:
            n, part = counts[low[0]], ("counts", direction)
            at = mhz(divider_input(plan, mode, direction, n).hz(plan))
            found = f"{at} MHz at the divider on channel {low[0]}, a count of {n}{_others(low)}"
            yield Fault(part, found, "more than 0", "Look at 'first' and the sign of 'per-slot'.")
        slow = [each for each, n in counts.items() if vco(plan, mode, direction, n).hz(plan) <= 0]
        if slow:
            at = mhz(vco(plan, mode, direction, counts[slow[0]]).hz(plan))
            found = f"the VCO at {at} MHz in {direction} on channel {slow[0]}{_others(slow)}"
            remedy = "Look at the signs of the mixing and at the count."
            yield Fault(("synthesiser", "divider-input"), found, "more than 0 MHz", remedy)


def _reach(plan: Plan, mode: str) -> Iterator[Fault]:
    if plan.vco_reach_hz is None:
        return
    low, high = plan.vco_reach_hz
    for direction in DIRECTIONS:
        counts = plan.counts[direction].by_channel
        tuned = {each: vco(plan, mode, direction, n).hz(plan) for each, n in counts.items()}
        beyond = [each for each, hz in tuned.items() if not low <= hz <= high]
        if beyond:
            at = mhz(tuned[beyond[0]])
            found = f"the VCO at {at} MHz in {direction} on channel {beyond[0]}{_others(beyond)}"
            remedy = "Widen the reach if the VCO covers it, or mend the plan."
            yield Fault(("vco-reach",), found, f"{mhz(low)} to {mhz(high)} MHz", remedy)


def _images(plan: Plan, mode: str) -> Iterator[Fault]:
    for channel in plan.carriers:
        at = image(plan, mode, channel)
        near = [one for one, hz in plan.carriers.items() if 2 * abs(hz - at) < plan.grid_hz]
        if near:
            found = f"the image of channel {channel} at {mhz(at)} MHz, on channel {near[0]}"
            remedy = "Twice the first intermediate frequency must be more than the band is wide."
            yield Fault(("receiver", "first-if-mhz"), found, "an image off all channels", remedy)
            return


def _shared_counts(plan: Plan) -> Iterator[Fault]:
    for direction in DIRECTIONS:
        by_channel = plan.counts[direction].by_channel
        for n, channels in _alike(by_channel).items():
            found = f"a count of {n} on channels {channels[0]} and {channels[1]}"
            remedy = "Channels with one count are one channel; look at the rule or the table."
            yield Fault(("counts", direction), found, "a count of its own for each", remedy)


def _line_faults(lines: Lines) -> Iterator[Fault]:
    for channel in lines.codes:
        try:
            states(lines, channel)
        except ValueError as error:
            found = f"channel {channel}: {error}"
            remedy = "Add the missing weight, or look at the lines wired for good."
            yield Fault(("lines", "weights"), found, "lines that make every number", remedy)
            return
    for code, channels in _alike(lines.codes).items() if lines.coding == "rom" else ():
        found = f"the code {code} on channels {channels[0]} and {channels[1]}"
        remedy = "Give each channel a code; the chip cannot tell these two apart."
        yield Fault(("lines", "codes"), found, "a code of its own for each", remedy)


def _sidebands(plan: Plan) -> Iterator[Fault]:
    """Yield modes whose carrier is on the side of the filter that passes the other sideband.

    An oscillator above the signal turns sidebands over: what was above the carrier is below it in
    the filter, so for upper sideband the carrier is above the filter.
    """
    for name, mode in plan.modes.items():
        if not mode.sideband or plan.filter_hz is None:
            continue
        at = plan.oscillator(plan.carrier, name).hz
        is_turned = is_lo_above(plan, name)
        belongs_above = (mode.sideband == "upper") == is_turned
        if at == plan.filter_hz or (at > plan.filter_hz) != belongs_above:
            side, lo = ("above" if yes else "below" for yes in (belongs_above, is_turned))
            found = f"the carrier at {mhz(at)} MHz and the filter at {mhz(plan.filter_hz)} MHz, "
            found += f"with the local oscillator {lo} the signal"
            remedy = f"For {mode.title.lower()} name the carrier crystal that is {side} the filter."
            yield Fault(("modes", name), found, f"the carrier {side} the filter", remedy)


def _alike(by_channel: Mapping[int, int]) -> dict[int, list[int]]:
    """Return the numbers that more than one channel has, with those channels."""
    channels: dict[int, list[int]] = {}
    for channel, number in by_channel.items():
        channels.setdefault(number, []).append(channel)
    return {number: those for number, those in channels.items() if len(those) > 1}


def _others(channels: list[int]) -> str:
    """Return how many more channels are like the first."""
    more = len(channels) - 1
    return f" ({more} more {'channel' if more == 1 else 'channels'} alike)" if more else ""
