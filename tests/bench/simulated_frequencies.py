"""How well frequency readings name what is wrong: `python -m tests.bench.simulated_frequencies`.

Invented sets on the shipped plans: one oscillator off by a random amount from the knowledge's own
bells, or one programming line stuck; a counter of 5 ppm; three readings, each the one that the
advice names. The VCO follows any count where lines are stuck.
"""

import argparse
from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from engine.diagnosis.frequencies.estimates import estimates
from engine.diagnosis.frequencies.likelihood import fault_posterior
from tests.diagnosis.frequencies.scenes import (
    LINES_ONLY,
    SOUND_LINES,
    measured,
    model_of,
    one_line_stuck,
    one_oscillator_off,
    prior_of,
)

PLANS = {
    "two-crystal-up-mixed": "am",
    "multi-crystal-sideband": "am",
    "loop-crystal-multimode": "fm",
    "three-crystal-mixing": "fm",
}
POINTS = ("transmit", "lo", "centre", "oscillator:reference")
LINE_POINTS = ("transmit",)
READINGS = 3


@dataclass(frozen=True, slots=True)
class Found:
    """Of so many sets: what was at fault came first; intervals that held the true offset."""

    sets: int
    first: int
    covered: int
    intervals: int


def oscillators_found(plan: str, mode: str, points: Sequence[str], sets: int, seed: int) -> Found:
    """Return how often the oscillator that is off comes first, and how often intervals hold."""
    random = Random(seed)
    model = model_of(plan, mode)
    prior = prior_of(model, [0.0, 1.0], SOUND_LINES)
    first = covered = intervals = 0
    for _ in range(sets):
        faulty, which = one_oscillator_off(model, mode, random)
        readings, posterior = measured(faulty, prior, points, READINGS, random)
        rows = estimates(model, readings, posterior)
        first += max(range(len(rows)), key=lambda n: rows[n].p_off) == which
        for row, true_ppm in zip(rows, faulty.offsets_ppm, strict=True):
            intervals += 1
            covered += row.low_ppm <= true_ppm <= row.high_ppm
    return Found(sets, first, covered, intervals)


def lines_found(plan: str, mode: str, points: Sequence[str], sets: int, seed: int) -> Found:
    """Return how often the line that is stuck comes first."""
    random = Random(seed)
    model = model_of(plan, mode, follows_any=True)
    prior = prior_of(model, [1.0], LINES_ONLY)
    first = 0
    for _ in range(sets):
        faulty = one_line_stuck(model, mode, random)
        readings, posterior = measured(faulty, prior, points, READINGS, random)
        first += next(iter(fault_posterior(model, readings, posterior))) == faulty.fault
    return Found(sets, first, 0, 0)


def main() -> None:
    """Print the figures of every plan."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sets", type=int, default=400)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    for plan, mode in PLANS.items():
        off = oscillators_found(plan, mode, POINTS, args.sets, args.seed)
        stuck = lines_found(plan, mode, LINE_POINTS, args.sets, args.seed)
        print(
            f"{plan}, {mode}: oscillator first in {off.first / off.sets:.1%} of {off.sets}, "
            f"95 % intervals hold {off.covered / off.intervals:.1%} of {off.intervals}; "
            f"stuck line first in {stuck.first / stuck.sets:.1%} of {stuck.sets}"
        )


if __name__ == "__main__":
    main()
