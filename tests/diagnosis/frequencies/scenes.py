"""Sets of the shipped plans with something off frequency, for tests and measurements."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from random import Random

from engine.diagnosis.frequencies.choosing import outlook
from engine.diagnosis.frequencies.likelihood import likelihood
from engine.diagnosis.frequencies.making import divisions_of
from engine.diagnosis.frequencies.model import (
    Bell,
    Counter,
    FrequencyModel,
    LineFault,
    OscillatorStates,
    Reading,
    Sound,
)
from engine.diagnosis.frequencies.points import expected
from engine.knowledge.library import Library, load, read_texts
from engine.radio.plans.plan import Plan

OFF = (1, 2, 3, 4)  # states of an oscillator that is off, alike in the prior below
KB = Path(__file__).parents[3] / "kb"
MEANINGS = ["sound", "small-line", "moved", "large-line", "nothing"]
LINES_ONLY = [0.1, 0.9, 0.0, 0.0, 0.0]  # P(state of the division number) when a line may be stuck
SOUND_LINES = [1.0, 0.0, 0.0, 0.0, 0.0]
COUNTER = Counter(3.0, 10.0)  # of 5 ppm: the limit taken as nearly two standard deviations


@lru_cache(maxsize=1)
def library() -> Library:
    """Return the shipped knowledge."""
    return load(read_texts(KB))


@lru_cache(maxsize=32)
def model_of(plan_id: str, mode: str, follows_any: bool = False) -> FrequencyModel:
    """Return a plan in one mode; with `follows_any` its VCO follows any count."""
    plan = library().plans[plan_id]
    plan = replace(plan, vco_reach_hz=None) if follows_any else plan
    table = library().frequencies
    assert table is not None
    bells = tuple(
        tuple(Bell(b.share, b.mean_ppm, b.spread_ppm) for b in table.offsets[state].bells)
        for state in ("right", "low", "high", "far-low", "far-high")
    )
    used = {plan.modes[mode].instead.get(name, name) for name in roles(plan)}
    return FrequencyModel(
        plan,
        tuple(OscillatorStates(name, bells) for name in plan.oscillators if name in used),
        divisions_of(plan, MEANINGS),
        (0.0, 1.0),
        COUNTER,
    )


def roles(plan: Plan) -> list[str]:
    """Return the roles of oscillators that any formula of the plan names."""
    mixes = (plan.divider_input, plan.lo, plan.second_lo, plan.transmit)
    return [plan.reference, *(name for mix in mixes for name in mix), plan.carrier]


def prior_of(model: FrequencyModel, off: Sequence[float], lines: Sequence[float]) -> list[float]:
    """Return P(joint state): so many oscillators off with the chances `off`, and lines."""
    rows = []
    for state in model.states():
        number = sum(1 for each in state[:-2] if each)
        lock = (0.99, 0.01)[state[-1]]
        rows.append((off[number] if number < len(off) else 0.0) * lines[state[-2]] * lock)
    total = sum(rows)
    return [p / total for p in rows]


def posterior_of(
    model: FrequencyModel, prior: Sequence[float], readings: tuple[Reading, ...]
) -> list[float]:
    """Return P(joint state | readings)."""
    rows = [p * q for p, q in zip(prior, likelihood(model, readings), strict=True)]
    total = sum(rows)
    return [p / total for p in rows]


@dataclass(frozen=True, slots=True)
class FaultySet:
    """A set on the bench: offsets in ppm by oscillator, a line fault, and the counter's error."""

    model: FrequencyModel
    mode: str
    offsets_ppm: tuple[float, ...]
    fault: LineFault
    timebase_ppm: float

    def read(self, point: str, channel: int, random: Random) -> Reading:
        """Return what is read at a point; a loop that cannot follow runs anywhere."""
        right = expected(self.model, point, self.mode, channel, self.fault)
        if right is None:
            sound = expected(self.model, point, self.mode, channel, Sound())
            assert sound is not None
            return Reading(point, self.mode, channel, sound.hz + random.uniform(-4e5, 4e5))
        away = sum(a * ppm for a, ppm in zip(right.hz_per_ppm, self.offsets_ppm, strict=True))
        away += right.timebase_hz_per_ppm * self.timebase_ppm + random.gauss(0.0, right.sd_hz)
        return Reading(point, self.mode, channel, right.hz + away)


def one_oscillator_off(model: FrequencyModel, mode: str, random: Random) -> tuple[FaultySet, int]:
    """Return a set in which one oscillator is off, and which: drawn from the knowledge's bells."""
    which = random.randrange(len(model.oscillators))
    offsets = []
    for number, each in enumerate(model.oscillators):
        bells = each.bells[random.choice(OFF) if number == which else 0]
        bell = random.choices(bells, [bell.share for bell in bells])[0]
        offsets.append(random.gauss(bell.mean_ppm, bell.sd_ppm))
    timebase = random.gauss(0.0, model.counter.timebase_ppm)
    return FaultySet(model, mode, tuple(offsets), Sound(), timebase), which


def one_line_stuck(model: FrequencyModel, mode: str, random: Random) -> FaultySet:
    """Return a set in which one line is stuck and the oscillators are right."""
    fault = random.choice([fault for fault, _ in model.divisions[1]])
    offsets = tuple(random.gauss(0.0, each.bells[0][0].sd_ppm) for each in model.oscillators)
    return FaultySet(model, mode, offsets, fault, random.gauss(0.0, model.counter.timebase_ppm))


def best_reading(
    model: FrequencyModel,
    mode: str,
    readings: tuple[Reading, ...],
    posterior: Sequence[float],
    points: Sequence[str],
) -> tuple[str, int]:
    """Return the point and the channel that the advice would have read next."""
    believed = outlook(model, readings, posterior)
    best: tuple[float, str, int] | None = None
    for point in points:
        made = {each.channel for each in readings if each.point == point}
        for row in believed.gains(point, mode):
            if row.channel not in made:
                if best is None or row.gain_bits > best[0]:
                    best = (row.gain_bits, point, row.channel)
                break
    assert best is not None
    return best[1], best[2]


def measured(
    faulty: FaultySet,
    prior: Sequence[float],
    points: Sequence[str],
    number: int,
    random: Random,
) -> tuple[tuple[Reading, ...], list[float]]:
    """Return so many readings, each the one that is advised, and the posterior after them."""
    readings: tuple[Reading, ...] = ()
    posterior = list(prior)
    for _ in range(number):
        point, channel = best_reading(faulty.model, faulty.mode, readings, posterior, points)
        readings = (*readings, faulty.read(point, channel, random))
        posterior = posterior_of(faulty.model, prior, readings)
    return readings, posterior
