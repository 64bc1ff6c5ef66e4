"""The least number of checks there can be, on a set small enough to look at every course.

A course ends when a cause is sure enough to act on, or when no check left tells anything. Of all
ways to choose, dynamic programming over what is known finds the one with the fewest checks to
expect; the expectation of any other way is worked out on the same tree of courses.

References:
    Bellman, Dynamic Programming (1957), chapter III.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from engine.diagnosis.advising.advice import NEARLY_SURE, WORTH_BITS, ranked_causes
from engine.diagnosis.advising.foresight import outcomes_of
from engine.diagnosis.advising.steps import mendable
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.gain import information_gain
from engine.inference.past import calibrate, times
from engine.inference.propagation import Calibration

Seen = frozenset[tuple[str, int]]  # checks made, each with the number of its outcome
Gains = Mapping[str, float]  # of the checks still open, in bits
Choice = Callable[[Gains], str]


@dataclass(frozen=True)
class Courses:
    """Every course of one set with some of its checks; what was worked out is kept."""

    model: SetModel
    checks: tuple[CheckText, ...]
    least: dict[Seen, float] = field(default_factory=dict)
    known: dict[Seen, tuple[Calibration, Gains]] = field(default_factory=dict)

    def least_checks(self, seen: Seen = frozenset()) -> float:
        """Return the least number of checks to expect from what was seen on."""
        if seen not in self.least:
            options = self._options(seen)
            self.least[seen] = min(
                (1.0 + self._after(seen, name, self.least_checks) for name in options), default=0.0
            )
        return self.least[seen]

    def checks_of(self, choose: Choice, seen: Seen = frozenset()) -> float:
        """Return the number of checks to expect of a way of choosing, from what was seen on."""
        options = self._options(seen)
        if not options:
            return 0.0
        then = self._after(seen, choose(options), lambda later: self.checks_of(choose, later))
        return 1.0 + then

    def _options(self, seen: Seen) -> Gains:
        """Return the checks to choose from and their gains; none where the course ends."""
        calibration, gains = self._step(seen)
        lead = mendable(ranked_causes(self.model, calibration))[0]
        is_over = lead.probability >= NEARLY_SURE or max(gains.values(), default=0.0) < WORTH_BITS
        return {} if is_over else gains

    def _after(self, seen: Seen, name: str, rest: Callable[[Seen], float]) -> float:
        """Return the mean of what `rest` tells, over the outcomes of a check."""
        calibration, _ = self._step(seen)
        check = self.model.checks[name]
        states, total = calibration.posterior(check.looks_at), 0.0
        for number, (*_, shows) in enumerate(outcomes_of(check)):
            chance = sum(p * q for p, q in zip(states, shows, strict=True))
            if chance > 0.0:
                total += chance * rest(seen | {(name, number)})
        return total

    def _step(self, seen: Seen) -> tuple[Calibration, Gains]:
        if seen not in self.known:
            made = {name for name, _ in seen}
            calibration = calibrate(self.model.tree, self._held(seen))
            gains = {
                check.id: information_gain(calibration.posterior(check.looks_at), check.channel)
                for check in self.checks
                if check.id not in made
            }
            self.known[seen] = calibration, gains
        return self.known[seen]

    def _held(self, seen: Seen) -> Mapping[str, Sequence[float]]:
        held: dict[str, Sequence[float]] = {}
        for name, number in sorted(seen):
            check = self.model.checks[name]
            held = times(held, {check.looks_at: outcomes_of(check)[number][-1]})
        return held


def most_told(gains: Gains) -> str:
    """Return the check that tells most; ties by id."""
    return min(gains, key=lambda name: (-round(gains[name], 9), name))


def first_of(order: Sequence[str]) -> Choice:
    """Return the choice of the first check in a fixed order that is still open."""
    return lambda gains: next(name for name in order if name in gains)
