"""Which reading would tell most, and on which channel.

A reading tells two things: which count it stands for, in steps of kilohertz, and how far off it is
from that. The steps are taken to be told apart for certain, so the two add up:
I = I(step; line and lock) + sum over steps P(step) I(distance; oscillators | step).
"""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from math import asinh, erf, exp, sinh, sqrt

from engine.diagnosis.frequencies.hypotheses import explained
from engine.diagnosis.frequencies.likelihood import fault_and_lock
from engine.diagnosis.frequencies.model import FrequencyModel, LineFault, Reading, Sound, counts
from engine.diagnosis.frequencies.points import direction_of, expected, uses_loop
from engine.inference.gain import Channel, channel, entropy, information_gain
from engine.inference.upwards import sum_out
from engine.radio.plans.plan import Direction

CELLS = 96
FINEST_HZ = 5.0  # cells near nothing wrong are a few of these wide; farther out they grow
WIDEST_HZ = 60_000.0
WING = 6.0
SQRT_2 = sqrt(2.0)
SAME = 1e14  # rows that agree in so many parts of 1 are one row
LIGHT = 1e-7  # bells that weigh less move no printed digit
States = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ChannelGain:
    """What reading a point on a channel would tell, in bits."""

    channel: int
    gain_bits: float


@dataclass(frozen=True, eq=False)
class Outlook:
    """What is believed now, in the parts that a reading tells apart; made once for each step."""

    model: FrequencyModel
    readings: tuple[Reading, ...]
    oscillators: tuple[float, ...]  # P(states of the oscillators), in order
    lines: dict[tuple[LineFault, int], float]  # P(line fault, state of the lock)

    @cached_property
    def likely_fault(self) -> LineFault:
        """Return the line fault that distances are counted from."""
        return max(self.lines, key=lambda each: self.lines[each])[0]

    @cached_property
    def most_bits(self) -> float:
        """Return more than any reading can tell."""
        return entropy(self.oscillators) + entropy(list(self.lines.values()))

    def gains(self, point: str, mode: str) -> tuple[ChannelGain, ...]:
        """Return the gain of reading `point` on each channel, best first; ties to the middle."""
        middle = self._places[1]
        apart = self._apart(point, mode)
        if not uses_loop(point):
            return (ChannelGain(middle, (1.0 - self.model.slip) * apart[middle]),)
        steps = self._steps(mode, direction_of(point))
        rows = [
            ChannelGain(each, told + seen * apart[each]) for each, (told, seen) in steps.items()
        ]
        return tuple(
            sorted(rows, key=lambda row: (-round(row.gain_bits, 9), abs(row.channel - middle)))
        )

    @cached_property
    def _places(self) -> tuple[int, int, int]:
        """Return the first channel, the one in the middle of the dial, and the last."""
        channels = list(self.model.plan.carriers)
        return channels[0], channels[len(channels) // 2], channels[-1]

    def _apart(self, point: str, mode: str) -> dict[int, float]:
        """Return for each channel what the distance from the step tells of the oscillators.

        An oscillator that is counted shows more on one end of the dial than on the other; that is
        worked out at both ends and in the middle, and lies on straight lines between.
        """
        first, middle, last = self._places
        known = {
            each: information_gain(*self._about(point, mode, each))
            for each in ((first, middle, last) if uses_loop(point) else (middle,))
        }
        if len(known) == 1:
            return known
        found = {}
        for each in self.model.plan.carriers:
            start, end = (first, middle) if each <= middle else (middle, last)
            share = (each - start) / (end - start)
            found[each] = known[start] + share * (known[end] - known[start])
        return found

    def _about(self, point: str, mode: str, number: int) -> tuple[list[float], Channel]:
        """Return how likely each of the rows of what the distance shows is, and the rows."""
        fault = self.likely_fault
        which, through = _distance(self.model, self.readings, fault, point, mode, number)
        return sum_out(self.oscillators, which, len(through.rows)), through

    def distances(self, point: str, mode: str) -> list[tuple[float, float]]:
        """Return how far in Hz a reading may be from its step, and how likely each is."""
        shares, about = self._about(point, mode, self._places[1])
        edges = (-WIDEST_HZ, *_edges()[:-1], WIDEST_HZ)
        chances = [
            sum(p * row[cell] for p, row in zip(shares, about.rows, strict=True))
            for cell in range(CELLS)
        ]
        return [
            ((low + high) / 2.0, p) for (low, high), p in zip(pairwise(edges), chances, strict=True)
        ]

    def _steps(self, mode: str, direction: Direction) -> dict[int, tuple[float, float]]:
        """Return for each channel the bits about the count, and P(a count can be made out)."""
        key = (mode, direction)
        if key not in self._kept:
            rows = [
                (counts(self.model, mode, direction, fault), sound, noise)
                for fault, sound, noise in self._sounding
            ]
            self._kept[key] = {each: _step(rows, each) for each in self.model.plan.carriers}
        return self._kept[key]

    @cached_property
    def _sounding(self) -> list[tuple[LineFault, float, float]]:
        """Each line fault, P(it is there and its count shows), and the bits of whether it does."""
        found: dict[LineFault, tuple[float, float]] = {}
        for (fault, lock), p in self.lines.items():
            sound = (1.0 - self.model.wild[lock]) * (1.0 - self.model.slip)
            shows, noise = found.get(fault, (0.0, 0.0))
            found[fault] = shows + p * sound, noise + p * entropy((sound, 1.0 - sound))
        return [(fault, *rest) for fault, rest in found.items()]

    @cached_property
    def _kept(self) -> dict[tuple[str, Direction], dict[int, tuple[float, float]]]:
        return {}


def outlook(
    model: FrequencyModel, readings: tuple[Reading, ...], posterior: Sequence[float]
) -> Outlook:
    """Return what is believed, from P(joint state | everything) in the order of the states."""
    cells = model.shape[-2] * model.shape[-1]  # division number and lock run fastest
    firsts = range(0, len(posterior), cells)
    oscillators = tuple(sum(posterior[first : first + cells]) for first in firsts)
    return Outlook(model, readings, oscillators, fault_and_lock(model, readings, posterior))


def _step(
    rows: Sequence[tuple[Mapping[int, int], float, float]], number: int
) -> tuple[float, float]:
    """Return the bits about the count on a channel, and P(a count can be made out)."""
    found: dict[int, float] = {}
    unsure = 0.0
    for counted, sound, noise in rows:
        n = counted.get(number)
        if n is not None:
            found[n] = found.get(n, 0.0) + sound
            unsure += noise
    seen = sum(found.values())
    told = entropy([*found.values(), max(1.0 - seen, 0.0)]) - unsure
    return max(told, 0.0), seen


@lru_cache(maxsize=256)
def _distance(
    model: FrequencyModel,
    readings: tuple[Reading, ...],
    fault: LineFault,
    point: str,
    mode: str,
    number: int,
) -> tuple[tuple[int, ...], Channel]:
    """Return P(distance from the step | states of the oscillators), in cells.

    States that a reading does not tell apart share a row: first comes which row each has.
    """
    right = expected(model, point, mode, number, fault) or expected(
        model, point, mode, number, Sound()
    )
    assert right is not None, "a plan's own counts are in reach"
    row = (*right.hz_per_ppm, right.timebase_hz_per_ppm)
    known = explained(model, readings, fault, min(model.wild))
    rows: dict[States, list[float]] = {states: [0.0] * CELLS for states in known.by_states}
    for each in known.hypotheses:
        mean, variance = each.offsets.predicted(row, right.sd_hz)
        weight = exp(each.offsets.log_weight) / known.by_states[each.states]
        if weight < LIGHT:
            continue
        _spread(rows[each.states], weight, mean, sqrt(variance))
    distinct: dict[States, list[float]] = {}
    which = []
    for cells in map(_whole, rows.values()):
        alike = tuple(round(p * SAME) for p in cells)
        distinct.setdefault(alike, cells)
        which.append(alike)
    numbers = {alike: number for number, alike in enumerate(distinct)}
    return tuple(numbers[alike] for alike in which), channel([*distinct.values()])


def _spread(cells: list[float], weight: float, mean: float, sd: float) -> None:
    """Add a bell to cells; beyond six standard deviations there is nothing of it."""
    edges, scale = _edges(), 1.0 / (sd * SQRT_2)
    first = bisect_right(edges, mean - WING * sd)
    last = bisect_right(edges, mean + WING * sd)
    below, half = 0.0, 0.5 * weight
    for number in range(first, last):
        until = half * (1.0 + erf((edges[number] - mean) * scale))
        cells[number] += until - below
        below = until
    cells[last] += weight - below


@lru_cache(maxsize=1)
def _edges() -> tuple[float, ...]:
    """Return the upper edges of the cells in Hz: even near 0, growing outwards."""
    half = CELLS / 2
    reach = asinh(WIDEST_HZ / (FINEST_HZ * half))
    scale = WIDEST_HZ / sinh(reach)
    inner = [scale * sinh(reach * (k - half) / half) for k in range(1, CELLS)]
    return (*inner, float("inf"))


def _whole(cells: list[float]) -> list[float]:
    """Return cells that sum to 1; states that were dropped tell nothing."""
    total = sum(cells)
    return [cell / total for cell in cells] if total > 0.0 else [1.0 / len(cells)] * len(cells)
