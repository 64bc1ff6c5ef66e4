"""The joint likelihood against one written out in full with numpy and scipy."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from scipy.stats import multivariate_normal

from engine.diagnosis.frequencies.likelihood import fault_posterior, likelihood
from engine.diagnosis.frequencies.model import FrequencyModel, Reading, Sound
from engine.diagnosis.frequencies.points import expected, uses_loop
from engine.radio.plans.lines import StuckLine
from tests.diagnosis.frequencies.scenes import (
    LINES_ONLY,
    SOUND_LINES,
    model_of,
    posterior_of,
    prior_of,
)

P5 = "three-crystal-mixing"


def written_out(model: FrequencyModel, readings: tuple[Reading, ...]) -> list[float]:
    """Return the same by brute force: every fault, bell and choice of explained readings."""
    rows = []
    for state in model.states():
        total = 0.0
        for fault, share in model.divisions[state[-2]]:
            right = [expected(model, r.point, r.mode, r.channel, fault) for r in readings]
            wild = model.wild[state[-1]]
            lost = [wild if uses_loop(r.point) else 0.0 for r in readings]
            sound = [
                (1.0 - w) * (1.0 - model.slip) if e else 0.0
                for e, w in zip(right, lost, strict=True)
            ]
            bells = [each.bells[s] for each, s in zip(model.oscillators, state, strict=False)]
            for chosen in product(*bells):
                for which in product((True, False), repeat=len(readings)):
                    p = share * np.prod([bell.share for bell in chosen])
                    for explains, chance in zip(which, sound, strict=True):
                        p *= chance if explains else (1.0 - chance) / model.span_hz
                    if p == 0.0:
                        continue
                    seen = [n for n, explains in enumerate(which) if explains]
                    total += p * (density(model, chosen, readings, right, seen) if seen else 1.0)
        rows.append(total)
    return rows


def with_few_states(model: FrequencyModel) -> FrequencyModel:
    """Return a model whose oscillators are right, low or far too high: enough, and sooner done."""
    few = tuple(
        replace(each, bells=(each.bells[0], each.bells[1], each.bells[4]))
        for each in model.oscillators
    )
    return replace(model, oscillators=few)


def density(model, chosen, readings, right, seen):  # type: ignore[no-untyped-def]
    """Return the Gaussian density of the explained readings, offsets integrated out."""
    slopes = np.array([[*right[n].hz_per_ppm, right[n].timebase_hz_per_ppm] for n in seen])
    means = np.array([*(bell.mean_ppm for bell in chosen), 0.0])
    variances = np.diag([*(bell.sd_ppm**2 for bell in chosen), model.counter.timebase_ppm**2])
    noise = np.diag([right[n].sd_hz ** 2 for n in seen])
    residuals = np.array([readings[n].hz - right[n].hz for n in seen])
    cov = slopes @ variances @ slopes.T + noise
    return multivariate_normal(slopes @ means, cov).pdf(residuals)


READINGS = {
    "transmit high": (("transmit", 1, 900.0),),
    "transmit high, receive right": (("transmit", 1, 900.0), ("lo", 20, -30.0)),
    "a line": (("transmit", 1, 20.0), ("transmit", 2, 10_010.0)),
    "reference": (("oscillator:reference", 1, 410.0), ("centre", 7, 300.0)),
    "nothing fits": (("transmit", 9, 123_456.0), ("lo", 9, 40.0)),
}


def readings_of(
    model: FrequencyModel, rows: tuple[tuple[str, int, float], ...]
) -> tuple[Reading, ...]:
    """Return readings from point, channel and how far they are from right, in Hz."""
    found = []
    for point, channel, away in rows:
        right = expected(model, point, "fm", channel, Sound())
        assert right is not None
        found.append(Reading(point, "fm", channel, right.hz + away))
    return tuple(found)


@pytest.mark.parametrize("rows", READINGS.values(), ids=READINGS)
def test_it_is_the_sum_over_everything_that_may_be(
    rows: tuple[tuple[str, int, float], ...],
) -> None:
    """Pruning and sharing change nothing that can be seen."""
    model = with_few_states(model_of(P5, "fm"))
    readings = readings_of(model, rows)
    exact = np.array(written_out(model, readings))
    ours = np.array(likelihood(model, readings))
    assert ours == pytest.approx(exact, rel=1e-6, abs=1e-8 * exact.max())


def test_a_transmit_crystal_is_told_from_the_loop_crystal() -> None:
    """Only transmit is off."""
    # Reference sheet, section 7, case 5: transmit +107 Hz, receive right: the transmit crystal.
    model = model_of(P5, "fm")
    prior = prior_of(model, [0.0, 1.0], SOUND_LINES)
    off_by = 60.0 * 10.695
    found = posterior_of(
        model, prior, readings_of(model, (("transmit", 1, off_by), ("centre", 1, 0.0)))
    )
    assert off(model, found) == "offset"


def test_the_loop_crystal_moves_receive_and_transmit() -> None:
    """Both are off by as many hertz."""
    # Reference sheet, section 7, case 6: transmit and receive both high: the loop crystal.
    model = model_of(P5, "fm")
    prior = prior_of(model, [0.0, 1.0], SOUND_LINES)
    off_by = 60.0 * 15.99625
    found = posterior_of(
        model, prior, readings_of(model, (("transmit", 1, off_by), ("centre", 1, off_by)))
    )
    assert off(model, found) == "loop"


def test_a_line_is_told_by_two_channels() -> None:
    """One channel is right and the next is a whole step off."""
    # Reference sheet, section 7, case 4: channel 1 right and channel 2 sends 26.985: P0 stuck low.
    model = model_of("two-crystal-up-mixed", "am", follows_any=True)
    prior = prior_of(model, [1.0], LINES_ONLY)
    readings = (
        Reading("transmit", "am", 1, 26_965_000.0),
        Reading("transmit", "am", 2, 26_985_000.0),
    )
    faults = fault_posterior(model, readings, posterior_of(model, prior, readings))
    assert next(iter(faults)) == StuckLine("p0", 0)
    assert faults[StuckLine("p0", 0)] > 0.99


def test_reference_and_transmit_crystal_off_at_once_are_both_found() -> None:
    """Two oscillators in opposite directions."""
    model = model_of(P5, "fm")
    prior = prior_of(model, [0.9, 0.09, 0.01], SOUND_LINES)
    reference_hz, offset_hz = 60.0 * 10.24, -70.0 * 10.695
    transmit_hz = 60.0 * 0.91 + offset_hz
    rows = (
        ("transmit", 1, transmit_hz),
        ("oscillator:reference", 1, reference_hz),
        ("vco", 1, 60.0 * 0.91),
    )
    found = posterior_of(model, prior, readings_of(model, rows))
    best = max(zip(found, model.states(), strict=True))[1]
    assert best[:3] == (2, 0, 1)  # reference high, loop right, transmit crystal low


def test_a_line_and_the_loop_crystal_at_once_are_both_found() -> None:
    """A few kilohertz everywhere, and a step on some channels."""
    model = model_of(P5, "fm", follows_any=True)
    prior = prior_of(model, [0.9, 0.09, 0.01], [0.9, 0.1, 0.0, 0.0, 0.0])
    loop_hz = 80.0 * 15.99625
    rows = (
        ("transmit", 2, loop_hz),  # N 92: line P0 should be low, and is
        ("transmit", 3, loop_hz - 10_000.0),  # N 93: line P0 should be high
        ("vco", 2, loop_hz),
    )
    readings = readings_of(model, rows)
    found = posterior_of(model, prior, readings)
    assert off(model, found) == "loop"
    assert next(iter(fault_posterior(model, readings, found))) == StuckLine("p0", 0)


def test_readings_with_one_counter_are_not_counted_twice() -> None:
    """The timebase is an unknown of its own."""
    # Three readings 6 ppm high by one counter are one error of its timebase, not three witnesses.
    model = model_of(P5, "fm")
    prior = prior_of(model, [0.9, 0.1], SOUND_LINES)
    thrice = readings_of(model, tuple(("transmit", channel, 166.0) for channel in (20, 21, 22)))
    once = posterior_of(model, prior, thrice[:1])
    then = posterior_of(model, prior, thrice)
    p_right_once = sum(p for p, s in zip(once, model.states(), strict=True) if not any(s[:3]))
    p_right_then = sum(p for p, s in zip(then, model.states(), strict=True) if not any(s[:3]))
    assert p_right_once == pytest.approx(p_right_then, abs=0.02)
    assert p_right_then > 0.6


def test_a_reading_that_nothing_explains_rules_nothing_out() -> None:
    """Every reading may be a slip."""
    model = model_of(P5, "fm")
    assert min(likelihood(model, (Reading("transmit", "fm", 1, 99e6),))) > 0.0


def off(model: FrequencyModel, posterior: list[float]) -> str:
    """Return the oscillator most likely to be off."""
    chances = [0.0] * len(model.oscillators)
    for state, p in zip(model.states(), posterior, strict=True):
        for number in range(len(chances)):
            chances[number] += p if state[number] else 0.0
    return model.oscillators[chances.index(max(chances))].oscillator
