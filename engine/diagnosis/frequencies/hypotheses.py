"""Every way readings may have come about, and how well each explains them.

A hypothesis says which bell each oscillator's offset is from, which line is at fault, and which
readings are explained by that; the others are wild or misread and may be anything in the band.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from math import exp, inf, log, log1p
from operator import mul

from engine.diagnosis.frequencies.gaussians import Belief, Narrowing, at_first, narrowing
from engine.diagnosis.frequencies.model import FrequencyModel, LineFault, Reading
from engine.diagnosis.frequencies.points import Expected, expected, uses_loop

NEGLIGIBLE = 20.0  # natural log: e^-20 of the best is two thousand-millionths
States = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """States of the oscillators and the offsets then; the weight is a density of the readings."""

    states: States
    offsets: Belief


@dataclass(frozen=True, slots=True)
class Explained:
    """All hypotheses for readings under one line fault and one chance of running wild."""

    hypotheses: tuple[Hypothesis, ...]
    by_states: dict[States, float]  # states of the oscillators -> density of the readings


@lru_cache(maxsize=2048)
def explained(
    model: FrequencyModel, readings: tuple[Reading, ...], fault: LineFault, wild: float
) -> Explained:
    """Return how the readings come about with a line fault and a chance of being out of lock."""
    wanted: list[_Wanted] = []
    for reading in readings:
        right = expected(model, reading.point, reading.mode, reading.channel, fault)
        chance = wild if uses_loop(reading.point) else 0.0
        sound = (1.0 - chance) * (1.0 - model.slip) if right else 0.0
        if right is None or _is_beyond_all(model, reading.hz - right.hz, right):
            wanted.append(_Wanted(None, 0.0, sound))
        else:
            wanted.append(_Wanted(right, reading.hz - right.hz, sound))
    return _explained(model, tuple(wanted))


@dataclass(frozen=True, slots=True)
class _Wanted:
    """What a reading should have been, how far it is from that, and the chance that it is sound.

    `right` is None where nothing sensible could be read, or no offset comes near what was read.
    """

    right: Expected | None
    residual: float
    sound: float


@lru_cache(maxsize=512)
def _explained(model: FrequencyModel, wanted: tuple[_Wanted, ...]) -> Explained:
    """Do it for what is expected: line faults that no reading tells apart share the work."""
    beliefs = _beliefs(model, wanted)
    return Explained(beliefs, _by_states(model, beliefs))


@lru_cache(maxsize=512)
def _beliefs(model: FrequencyModel, wanted: tuple[_Wanted, ...]) -> tuple[Hypothesis, ...]:
    """Return what is left after all readings; those before the last one are remembered.

    Weights come first, and only what is kept is worked out further.
    """
    if not wanted:
        return _starts(model)
    last, before = wanted[-1], _beliefs(model, wanted[:-1])
    seen = _seen(before, last)
    unseen: list[float] = []
    if last.sound < 1.0:
        anything = log1p(-last.sound) - log(model.span_hz)
        unseen = [each.offsets.log_weight + anything for each in before]
    cut = max([*(weight for weight, _, _ in seen), *unseen], default=-inf) - NEGLIGIBLE
    kept = [
        Hypothesis(each.states, each.offsets.narrowed(how, step, weight))
        for each, (weight, step, how) in zip(before, seen, strict=False)
        if weight > cut
    ]
    kept += [
        Hypothesis(each.states, each.offsets.weighing(weight))
        for each, weight in zip(before, unseen, strict=False)
        if weight > cut
    ]
    return tuple(kept)


@lru_cache(maxsize=16)
def _starts(model: FrequencyModel) -> tuple[Hypothesis, ...]:
    """Return every choice of states and bells before any reading."""
    choices = [
        [(state, bell) for state, bells in enumerate(each.bells) for bell in bells]
        for each in model.oscillators
    ]
    found = []
    for chosen in product(*choices):
        bells = [bell for _, bell in chosen]
        means = (*(bell.mean_ppm for bell in bells), 0.0)
        sds = (*(bell.sd_ppm for bell in bells), model.counter.timebase_ppm)
        weight = sum(log(bell.share) for bell in bells)
        found.append(Hypothesis(tuple(s for s, _ in chosen), at_first(means, sds, weight)))
    return tuple(found)


def _seen(before: Sequence[Hypothesis], wanted: _Wanted) -> list[tuple[float, float, Narrowing]]:
    """Return for each hypothesis that explains a reading its weight then, and how it narrows."""
    right = wanted.right
    if right is None or wanted.sound <= 0.0:
        return []
    row, log_sound = (*right.hz_per_ppm, right.timebase_hz_per_ppm), log(wanted.sound)
    narrowings: dict[int, Narrowing] = {}
    found = []
    for each in before:
        offsets = each.offsets
        how = narrowings.get(id(offsets.covariance))
        if how is None:
            how = narrowing(offsets.covariance, row, right.sd_hz)
            narrowings[id(offsets.covariance)] = how
        surprise = wanted.residual - sum(map(mul, row, offsets.mean))
        step = surprise / how.variance
        weight = offsets.log_weight + how.log_peak - 0.5 * surprise * step + log_sound
        found.append((weight, step, how))
    return found


def _by_states(model: FrequencyModel, beliefs: Sequence[Hypothesis]) -> dict[States, float]:
    """Return the density of the readings in each state of the oscillators.

    What was dropped stands at a floor, so that nothing becomes impossible.
    """
    best = max((each.offsets.log_weight for each in beliefs), default=-inf)
    floor = exp(best - NEGLIGIBLE)
    sizes = [range(len(each.bells)) for each in model.oscillators]
    density = dict.fromkeys(product(*sizes), floor)
    for each in beliefs:
        density[each.states] += exp(each.offsets.log_weight)
    return density


def _is_beyond_all(model: FrequencyModel, residual: float, right: Expected) -> bool:
    """Whether no offset in the knowledge explains a reading any better than chance does."""
    reach, variance = 0.0, right.sd_hz**2
    variance += (right.timebase_hz_per_ppm * model.counter.timebase_ppm) ** 2
    for each, per_ppm in zip(model.oscillators, right.hz_per_ppm, strict=True):
        bells = [bell for bells in each.bells for bell in bells]
        reach += abs(per_ppm) * max(abs(bell.mean_ppm) for bell in bells)
        variance += (per_ppm * max(bell.sd_ppm for bell in bells)) ** 2
    beyond = abs(residual) - reach
    if beyond <= 0.0:
        return False
    log_density = -0.5 * beyond * beyond / variance - log(max(right.sd_hz, 1.0))
    return log_density < -log(model.span_hz) - NEGLIGIBLE
