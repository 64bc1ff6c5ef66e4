"""What may be wrong with the frequencies of a set, and what a reading of one looks at.

Given the states of the oscillators, of the division number and of the lock, readings are Gaussian:
each oscillator's offset is a mixture of a few bells in each of its states, the counter's timebase
is off by one amount for all readings, and every reading has a noise of its own.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import product

from engine.radio.plans.arithmetic import count
from engine.radio.plans.lines import StuckLine, count_with, in_reach
from engine.radio.plans.plan import Direction, Plan

FREQUENCIES = "set.frequencies"  # the network's name for all that frequency readings look at


@dataclass(frozen=True, slots=True)
class Bell:
    """One part of an offset's distribution: its share, mean and standard deviation in ppm."""

    share: float
    mean_ppm: float
    sd_ppm: float


@dataclass(frozen=True, slots=True)
class OscillatorStates:
    """An oscillator of the plan and, for each state of its frequency, where its offset may be."""

    oscillator: str
    bells: tuple[tuple[Bell, ...], ...]


@dataclass(frozen=True, slots=True)
class Moved:
    """Every channel counts `by` more than it should."""

    by: int


@dataclass(frozen=True, slots=True)
class NoCount:
    """No sensible number is counted on any channel."""


@dataclass(frozen=True, slots=True)
class Sound:
    """Nothing is wrong with the lines."""


LineFault = StuckLine | Moved | NoCount | Sound


@dataclass(frozen=True, slots=True)
class Counter:
    """The frequency counter: standard deviations of its timebase and of one reading."""

    timebase_ppm: float
    resolution_hz: float


@dataclass(frozen=True, slots=True)
class Reading:
    """A frequency that was read, in Hz.

    `point` is `transmit`, `vco`, `lo`, `centre`, `heard`, or `oscillator:` with an id; `channel` is
    what the dial shows.
    """

    point: str
    mode: str
    channel: int
    hz: float


@dataclass(frozen=True, slots=True)
class AtPoint:
    """Where a check reads a frequency, on one channel; `check` is its id without the channel."""

    check: str
    point: str
    mode: str
    channel: int


@dataclass(frozen=True, eq=False)
class FrequencyModel:
    """Everything a frequency reading can tell of one kind of set.

    `divisions` has for each state of the division number the line faults it stands for, with their
    shares; `wild` for each state of the lock the chance that a channel is out of lock. A wild or
    misread reading may be anything in a band of `span_hz`.
    """

    plan: Plan
    oscillators: tuple[OscillatorStates, ...]
    divisions: tuple[tuple[tuple[LineFault, float], ...], ...]
    wild: tuple[float, ...]
    counter: Counter
    slip: float = 0.005
    span_hz: float = 800_000.0

    @cached_property
    def shape(self) -> tuple[int, ...]:
        """Return how many states oscillators, division number and lock have, in this order."""
        sizes = [len(each.bells) for each in self.oscillators]
        return (*sizes, len(self.divisions), len(self.wild))

    def states(self) -> Iterator[tuple[int, ...]]:
        """Yield the joint states, the last part running fastest."""
        return product(*map(range, self.shape))


@lru_cache(maxsize=65536)
def counted(
    model: FrequencyModel, mode: str, direction: Direction, channel: int, fault: LineFault
) -> int | None:
    """Return what the divider counts on a channel, None when nothing the VCO can follow."""
    plan = model.plan
    match fault:
        case StuckLine():
            n = count_with(plan, direction, channel, fault)
        case Moved(by):
            n = count(plan, direction, channel) + by
        case NoCount():
            return None
        case _:
            n = count(plan, direction, channel)
    return n if n is not None and _follows(model, mode, direction, n) else None


@lru_cache(maxsize=4096)
def counts(
    model: FrequencyModel, mode: str, direction: Direction, fault: LineFault
) -> dict[int, int]:
    """Return what is counted on each channel where that is anything the VCO can follow."""
    told = ((each, counted(model, mode, direction, each, fault)) for each in model.plan.carriers)
    return {each: n for each, n in told if n is not None}


@lru_cache(maxsize=8192)
def _follows(model: FrequencyModel, mode: str, direction: Direction, n: int) -> bool:
    return n > 0 and in_reach(model.plan, mode, direction, n)
