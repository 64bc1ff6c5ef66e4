"""What a counter must read: every frequency of a plan, and how each oscillator shows in it."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from engine.radio.plans.plan import VCO, Direction, Mix, Plan

PPM = Fraction(1, 1_000_000)


@dataclass(frozen=True, slots=True)
class Frequency:
    """A frequency as multiples of the oscillators, by their ids, and a constant in Hz."""

    multiples: Mapping[str, Fraction]
    constant: Fraction = Fraction(0)

    def hz(self, plan: Plan) -> Fraction:
        """Return it in Hz, with every oscillator right."""
        terms = (plan.oscillators[name].hz * times for name, times in self.multiples.items())
        return sum(terms, self.constant)

    def hz_per_ppm(self, plan: Plan) -> dict[str, float]:
        """Return for each oscillator the shift in Hz when that one is 1 ppm high."""
        rows = self.multiples.items()
        return {name: float(plan.oscillators[name].hz * times * PPM) for name, times in rows}

    def plus(self, other: "Frequency", times: Fraction | int = 1) -> "Frequency":
        """Return this and `times` the other together."""
        names = [*self.multiples, *(name for name in other.multiples if name not in self.multiples)]
        nothing = Fraction(0)
        sums = {
            name: self.multiples.get(name, nothing) + times * other.multiples.get(name, nothing)
            for name in names
        }
        kept = {name: multiple for name, multiple in sums.items() if multiple}
        return Frequency(kept, self.constant + times * other.constant)


def count(plan: Plan, direction: Direction, channel: int) -> int:
    """Return N, what the programmable divider counts on a channel."""
    return plan.counts[direction].by_channel[channel]


def step(plan: Plan, mode: str, direction: Direction) -> Frequency:
    """Return what the phase detector compares with: the reference, divided."""
    divide = plan.counts[direction].divide
    return Frequency({plan.oscillator(plan.reference, mode).id: Fraction(1, divide)})


def vco(plan: Plan, mode: str, direction: Direction, n: int) -> Frequency:
    """Return the VCO in lock: where its mix with the crystals is N steps."""
    wanted = step(plan, mode, direction)
    wanted = Frequency({name: n * times for name, times in wanted.multiples.items()})
    crystals = _mix(plan, mode, {r: t for r, t in plan.divider_input.items() if r != VCO})
    own = Fraction(1, plan.divider_input[VCO])
    return Frequency({}).plus(wanted, own).plus(crystals, -own)


def divider_input(plan: Plan, mode: str, direction: Direction, n: int) -> Frequency:
    """Return what the programmable divider is given in lock."""
    return _mix(plan, mode, plan.divider_input, vco(plan, mode, direction, n))


def local_oscillator(plan: Plan, mode: str, n: int) -> Frequency:
    """Return the first local oscillator in receive."""
    return _mix(plan, mode, plan.lo, vco(plan, mode, "receive", n))


def second_oscillator(plan: Plan, mode: str) -> Frequency:
    """Return the second local oscillator, or nothing when the mode converts once."""
    return _mix(plan, mode, plan.second_lo) if plan.modes[mode].second_if else Frequency({})


def transmitted(plan: Plan, mode: str, n: int) -> Frequency:
    """Return the carrier in transmit; in single sideband where the carrier would be."""
    return _mix(plan, mode, plan.transmit, vco(plan, mode, "transmit", n))


def first_if(plan: Plan, mode: str) -> Frequency:
    """Return what the receiver makes of a signal on tune.

    With two conversions that is the second oscillator and the second intermediate frequency
    together, on the side of the first filter. With one it is the carrier oscillator that the signal
    is beaten with, or the middle of the filter where the carrier itself is received.
    """
    if plan.modes[mode].sideband:
        return Frequency({plan.oscillator(plan.carrier, mode).id: Fraction(1)})
    if not plan.modes[mode].second_if:
        return Frequency({}, plan.if1_hz)
    second = second_oscillator(plan, mode)
    above = plan.if1_hz > second.hz(plan)
    return second.plus(Frequency({}, plan.if2_hz), 1 if above else -1)


def centre(plan: Plan, mode: str, n: int) -> Frequency:
    """Return the signal that stands in the middle of the receiver: best quieting, or zero beat."""
    oscillator, between = local_oscillator(plan, mode, n), first_if(plan, mode)
    return oscillator.plus(between, -1 if is_lo_above(plan, mode) else 1)


def image(plan: Plan, mode: str, channel: int) -> Fraction:
    """Return the image of the first mixer in Hz: twice the oscillator less the signal."""
    oscillator = local_oscillator(plan, mode, count(plan, "receive", channel)).hz(plan)
    return 2 * oscillator - plan.carriers[channel]


def is_lo_above(plan: Plan, mode: str) -> bool:
    """Whether the first local oscillator is above the signal, which turns sidebands over."""
    channel = next(iter(plan.carriers))
    oscillator = local_oscillator(plan, mode, count(plan, "receive", channel))
    return oscillator.hz(plan) > plan.carriers[channel]


def _mix(plan: Plan, mode: str, mix: Mix, tuned: Frequency | None = None) -> Frequency:
    total = Frequency({})
    for role, times in mix.items():
        if role == VCO:
            assert tuned is not None, "a mix of crystals only"
            part = tuned
        else:
            part = Frequency({plan.oscillator(role, mode).id: Fraction(1)})
        total = total.plus(part, times)
    return total
