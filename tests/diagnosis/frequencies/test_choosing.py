"""The advised channel against a search over the dial, each gain summed on a fine grid.

Before any reading the gain itself is within a tenth of a bit or an eighth of itself: steps of the
count may overlap. After one it may be farther off, as lines and oscillators then hang together;
the advice takes neither to happen, and its choice is held to the same measure all the same.
"""

from math import log2

import numpy as np
import pytest
from scipy.stats import norm

from engine.diagnosis.frequencies.choosing import outlook
from engine.diagnosis.frequencies.hypotheses import explained
from engine.diagnosis.frequencies.likelihood import likelihood
from engine.diagnosis.frequencies.model import FrequencyModel, Reading, Sound
from engine.diagnosis.frequencies.points import expected
from tests.diagnosis.frequencies.scenes import LINES_ONLY, model_of, posterior_of, prior_of

STEP_HZ = 25.0
REGRET_BITS = 0.02  # steps are taken to be told apart for certain, which is nearly so


def searched(
    model: FrequencyModel,
    readings: tuple[Reading, ...],
    posterior: list[float],
    point: str,
    mode: str,
    channel: int,
) -> float:
    """Return I(reading; states, line fault) in bits by summing over a fine grid of readings."""
    sound = expected(model, point, mode, channel, Sound())
    assert sound is not None
    grid = np.arange(-700_000.0, 700_000.0, STEP_HZ)
    together = likelihood(model, readings)
    mixed, conditional = np.zeros(len(grid)), 0.0
    for state, p, every in zip(model.states(), posterior, together, strict=True):
        for fault, share in model.divisions[state[-2]]:
            chance = (
                p
                * share
                * explained(model, readings, fault, model.wild[state[-1]]).by_states[state[:-2]]
                / every
                if readings
                else p * share
            )
            if chance < 1e-7:
                continue
            row = cells(model, readings, state, fault, point, mode, channel, grid, sound.hz)
            mixed += chance * row
            conditional += chance * bits(row)
    return bits(mixed) - conditional


def cells(model, readings, state, fault, point, mode, channel, grid, right_hz):  # type: ignore[no-untyped-def]
    """Return P(cell | state, fault, readings)."""
    anything = np.full(len(grid), 1.0 / len(grid))
    there = expected(model, point, mode, channel, fault)
    chance = (1.0 - model.wild[state[-1]]) * (1.0 - model.slip) if there else 0.0
    if not there or not chance:
        return anything
    row = (*there.hz_per_ppm, there.timebase_hz_per_ppm)
    known = [
        each
        for each in explained(model, readings, fault, model.wild[state[-1]]).hypotheses
        if each.states == state[:-2]
    ]
    weights = np.exp([each.offsets.log_weight for each in known])
    seen = np.zeros(len(grid))
    for each, weight in zip(known, weights / weights.sum(), strict=True):
        mean, variance = each.offsets.predicted(row, there.sd_hz)
        seen += weight * norm.pdf(grid, there.hz - right_hz + mean, variance**0.5) * STEP_HZ
    return chance * seen / max(seen.sum(), 1e-12) + (1.0 - chance) * anything


def bits(row):  # type: ignore[no-untyped-def]
    """Return the entropy of cells."""
    some = row[row > 0.0]
    return float(-(some * np.log2(some)).sum())


CASES = {
    "two-crystal-up-mixed": ("am", ()),
    "three-crystal-mixing": ("fm", ()),
    "three-crystal-mixing after one": ("fm", (("transmit", 22, 0.0),)),
    "two-crystal-up-mixed after one": ("am", (("transmit", 22, -20_000.0),)),
}


@pytest.mark.parametrize("name", CASES)
def test_the_advised_channel_is_the_best_of_all(name: str) -> None:
    """No other channel would tell more."""
    mode, rows = CASES[name]
    model = model_of(name.removesuffix(" after one"), mode, follows_any=True)
    prior = prior_of(model, [0.8, 0.2], LINES_ONLY)
    readings = tuple(
        Reading(point, mode, channel, float(model.plan.carriers[channel]) + away)
        for point, channel, away in rows
    )
    posterior = posterior_of(model, prior, readings)
    advised = outlook(model, readings, posterior).gains("transmit", mode)
    channels = list(model.plan.carriers)[::8]
    exact = {
        channel: searched(model, readings, posterior, "transmit", mode, channel)
        for channel in {*channels, advised[0].channel}
    }
    ours = {row.channel: row.gain_bits for row in advised}
    assert exact[advised[0].channel] >= max(exact.values()) - REGRET_BITS
    for channel, gain in exact.items() if not rows else ():
        assert ours[channel] == pytest.approx(gain, rel=0.12, abs=0.1)


def test_the_reference_is_read_where_it_is_counted_most() -> None:
    """With sound lines only the reference tells channels apart, by N: 130 on channel 40."""
    model = model_of("three-crystal-mixing", "fm")
    prior = prior_of(model, [0.9, 0.1], [1.0, 0.0, 0.0, 0.0, 0.0])
    rows = outlook(model, (), prior).gains("transmit", "fm")
    assert rows[0].channel == 40
    assert rows[-1].gain_bits > 0.95 * rows[0].gain_bits


def test_an_oscillator_is_read_on_no_channel_in_particular() -> None:
    """Its test point knows nothing of channels."""
    model = model_of("three-crystal-mixing", "fm")
    prior = prior_of(model, [0.5, 0.5], [1.0, 0.0, 0.0, 0.0, 0.0])
    (only,) = outlook(model, (), prior).gains("oscillator:loop", "fm")
    assert 0.3 < only.gain_bits < log2(3.0)
