"""What the readings say in plain numbers: how far each oscillator is off."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import erf, exp, sqrt

from engine.diagnosis.frequencies.hypotheses import explained
from engine.diagnosis.frequencies.likelihood import likelihood
from engine.diagnosis.frequencies.model import FrequencyModel, LineFault, Reading

LEAST = 1e-7  # weights below this share of all move no printed digit
States = tuple[int, ...]
Part = tuple[float, float, float, bool]  # weight, mean and sd in ppm, whether it is off
Mixture = list[Part]


@dataclass(frozen=True, slots=True)
class OffsetEstimate:
    """How far an oscillator is off, in ppm: the mean and the middle 95 % of what is believed.

    `p_off` is the chance that it is in another state than its first, `if_off_ppm` the mean then.
    """

    oscillator: str
    p_off: float
    mean_ppm: float
    low_ppm: float
    high_ppm: float
    if_off_ppm: float


def estimates(
    model: FrequencyModel, readings: tuple[Reading, ...], posterior: Sequence[float]
) -> tuple[OffsetEstimate, ...]:
    """Return an estimate for each oscillator, given P(joint state | everything)."""
    mixtures = _mixtures(model, readings, posterior)
    off = [0.0] * len(model.oscillators)
    for state, p in zip(model.states(), posterior, strict=True):
        for number in range(len(off)):
            off[number] += p if state[number] else 0.0
    return tuple(
        OffsetEstimate(
            each.oscillator,
            off[number],
            _mean(mixtures[number]),
            quantile(mixtures[number], 0.025),
            quantile(mixtures[number], 0.975),
            _mean([part for part in mixtures[number] if part[3]] or mixtures[number]),
        )
        for number, each in enumerate(model.oscillators)
    )


def quantile(mixture: Mixture, share: float) -> float:
    """Return where `share` of a mixture of bells lies below, to a thousandth of a ppm."""
    low = min(mean - 8.0 * sd for _, mean, sd, _ in mixture)
    high = max(mean + 8.0 * sd for _, mean, sd, _ in mixture)
    while high - low > 1e-3:
        middle = (low + high) / 2.0
        shares = (w * (1.0 + erf((middle - m) / (sd * sqrt(2.0)))) for w, m, sd, _ in mixture)
        below = 0.5 * sum(shares)
        low, high = (middle, high) if below < share else (low, middle)
    return (low + high) / 2.0


def _mixtures(
    model: FrequencyModel, readings: tuple[Reading, ...], posterior: Sequence[float]
) -> list[Mixture]:
    """Return for each oscillator its offset as a mixture; the weights sum to 1."""
    mixtures: list[Mixture] = [[] for _ in model.oscillators]
    for (fault, wild), by_states in _factors(model, readings, posterior).items():
        for each in explained(model, readings, fault, wild).hypotheses:
            weight = by_states.get(each.states, 0.0) * exp(each.offsets.log_weight)
            if weight < LEAST:
                continue
            for number, mixture in enumerate(mixtures):
                sd = sqrt(max(each.offsets.covariance[number][number], 1e-12))
                mixture.append((weight, each.offsets.mean[number], sd, each.states[number] > 0))
    return [_normalised(mixture) for mixture in mixtures]


def _factors(
    model: FrequencyModel, readings: tuple[Reading, ...], posterior: Sequence[float]
) -> dict[tuple[LineFault, float], dict[States, float]]:
    """Return what turns the weight of a hypothesis into its probability."""
    factors: dict[tuple[LineFault, float], dict[States, float]] = {}
    densities = likelihood(model, readings)
    for state, p, density in zip(model.states(), posterior, densities, strict=True):
        if p < LEAST * LEAST or density <= 0.0:
            continue
        for fault, share in model.divisions[state[-2]]:
            row = factors.setdefault((fault, model.wild[state[-1]]), {})
            row[state[:-2]] = row.get(state[:-2], 0.0) + p * share / density
    return factors


def _normalised(mixture: Mixture) -> Mixture:
    total = sum(weight for weight, _, _, _ in mixture)
    return [(weight / total, mean, sd, is_off) for weight, mean, sd, is_off in mixture]


def _mean(mixture: Mixture) -> float:
    return sum(w * mean for w, mean, _, _ in mixture) / sum(w for w, _, _, _ in mixture)
