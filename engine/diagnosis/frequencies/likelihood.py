"""Frequency readings as one likelihood over the states of oscillators, lines and lock."""

from collections.abc import Sequence
from functools import lru_cache
from operator import mul

from engine.diagnosis.frequencies.hypotheses import States, explained
from engine.diagnosis.frequencies.model import FrequencyModel, LineFault, Reading

RARE = 1e-9  # joint states less likely than this move no printed digit


@lru_cache(maxsize=128)
def likelihood(model: FrequencyModel, readings: tuple[Reading, ...]) -> tuple[float, ...]:
    """Return the density of all readings together in each joint state, per Hz for each reading.

    The order is that of `FrequencyModel.states`. Offsets, the timebase, the line at fault and slips
    are integrated or summed out, so that readings of one counter and one crystal are not counted
    twice. Hypotheses that are e^25 less likely than the best of their kind are dropped.
    """
    if not readings:
        return tuple(1.0 for _ in model.states())
    cells = {
        (d, w): _by_oscillators(model, readings, d, wild)
        for d in range(len(model.divisions))
        for w, wild in enumerate(model.wild)
    }
    return tuple(cells[state[-2], state[-1]][state[:-2]] for state in model.states())


def fault_and_lock(
    model: FrequencyModel, readings: tuple[Reading, ...], posterior: Sequence[float]
) -> dict[tuple[LineFault, int], float]:
    """Return P(line fault, state of the lock | everything), from that of the joint states."""
    together = likelihood(model, readings)
    left = [p / density if p >= RARE else 0.0 for p, density in zip(posterior, together)]  # noqa: B905
    chances: dict[tuple[LineFault, int], float] = {}
    cells = model.shape[-2] * model.shape[-1]
    for cell in range(cells):
        division, lock = divmod(cell, model.shape[-1])
        row = left[cell::cells]  # in the order of the oscillators' states
        if not any(row):
            continue
        alike: dict[int, float] = {}  # line faults that no reading tells apart share the work
        for fault, share in model.divisions[division]:
            densities = explained(model, readings, fault, model.wild[lock]).by_states
            if id(densities) not in alike:
                its = map(mul, row, densities.values()) if readings else row
                alike[id(densities)] = sum(its)
            chance = share * alike[id(densities)]
            chances[fault, lock] = chances.get((fault, lock), 0.0) + chance
    total = sum(chances.values())
    return {each: p / total for each, p in chances.items() if p > RARE}


def fault_posterior(
    model: FrequencyModel, readings: tuple[Reading, ...], posterior: Sequence[float]
) -> dict[LineFault, float]:
    """Return P(line fault | everything), likeliest first; sum 1."""
    chances: dict[LineFault, float] = {}
    for (fault, _), p in fault_and_lock(model, readings, posterior).items():
        chances[fault] = chances.get(fault, 0.0) + p
    return dict(sorted(chances.items(), key=lambda row: -row[1]))


@lru_cache(maxsize=512)
def _by_oscillators(
    model: FrequencyModel, readings: tuple[Reading, ...], division: int, wild: float
) -> dict[States, float]:
    """Return the density of the readings in each state of the oscillators."""
    shares: dict[int, tuple[float, dict[States, float]]] = {}
    for fault, share in model.divisions[division]:
        densities = explained(model, readings, fault, wild).by_states
        before, _ = shares.get(id(densities), (0.0, densities))
        shares[id(densities)] = (before + share, densities)
    rows = list(shares.values())
    return {each: sum(share * row[each] for share, row in rows) for each in rows[0][1]}
