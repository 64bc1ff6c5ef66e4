"""Which causes are behind the trouble: how much likelier each is than it would be without it.

The trouble is everything that was looked at and is likelier wrong than right. A cause that cannot
bring it about is as likely with the trouble as without, and has no part in it; one that brings it
about wherever it is there is never there without it, and its part is its whole chance. Between the
two, where it may be there and do nothing, its part is taken to be b in p = b + (1 - b) part, p and
b being its chances with the trouble and without.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, log2
from typing import NamedTuple

from engine.diagnosis.kinds import KIND
from engine.diagnosis.model import SetModel, past_roots
from engine.inference.likelihoods import Likelihoods, sure
from engine.inference.past import calibrate, times
from engine.inference.propagation import Calibration
from engine.inference.supposing import supposed

LIKELY = 0.5  # what was looked at and is wrong with more than that chance is trouble


@dataclass(frozen=True, slots=True)
class Trouble:
    """What is wrong; `known` is what was found, `cleared` the same of a set without the trouble.

    `p_right` is P(none of it is wrong | what was found), below `LIKELY`.
    """

    signals: tuple[str, ...]
    known: Calibration
    cleared: Calibration
    p_right: float


class Chances(NamedTuple):
    """P(something) and P(each cause, something), in the order of some list of causes."""

    whole: float
    causes: tuple[float, ...]

    def times(self, factor: float) -> "Chances":
        """Return these chances times a factor."""
        return Chances(factor * self.whole, tuple(factor * p for p in self.causes))


class Sight(NamedTuple):
    """What may be: whatever is the matter, and in a set without the trouble."""

    every: Chances
    right: Chances


def trouble(model: SetModel, held: Likelihoods, known: Calibration) -> Trouble | None:
    """Return what is wrong with a set of which `held` is known, None where nothing is."""
    events = (cause.id for cause in model.causes.values() if cause.kind == "event")
    apart = {KIND, *past_roots(model), *events}
    names = [n for n in held if n not in apart and known.posterior(n)[0] < 1.0 - LIKELY]
    if not names:
        return None
    righted = {name: _right(row) if name in names else row for name, row in held.items()}
    logs = [log2(held[name][0]) if held[name][0] > 0.0 else -inf for name in names]
    cleared = calibrate(model.tree, righted)
    p_right = 2.0 ** (cleared.log2_evidence + sum(logs) - known.log2_evidence)
    righted = times(righted, _as_known(known, cleared, past_roots(model)))
    return Trouble(tuple(names), known, calibrate(model.tree, righted), p_right)


def _as_known(known: Calibration, cleared: Calibration, roots: Sequence[str]) -> Likelihoods:
    """Return what gives a set without the trouble the same past as the set that has it.

    The trouble speaks for a past that would harm other things too, which are not behind it.
    """
    if not cleared.is_possible:
        return {}
    pairs = {name: (known.posterior(name), cleared.posterior(name)) for name in roots}
    return {
        name: [p / q if q > 0.0 else 0.0 for p, q in zip(*both, strict=True)]
        for name, both in pairs.items()
    }


def sight(of: Trouble, causes: Sequence[str]) -> Sight:
    """Return how likely causes are."""
    return Sight(_chances(of.known, causes), _chances(of.cleared, causes))


def sight_in_state(
    model: SetModel, of: Trouble, causes: Sequence[str], variable: str, state: int
) -> Sight:
    """Return how likely a variable is in a state, and causes with it: two passes at most."""
    worlds = (of.known, of.cleared)
    return Sight(*(_in_state(model, known, causes, variable, state) for known in worlds))


def _in_state(
    model: SetModel,
    known: Calibration,
    causes: Sequence[str],
    variable: str,
    state: int,
) -> Chances:
    states = known.posterior(variable) if known.is_possible else ()
    if not states or states[state] <= 0.0:
        return Chances(0.0, (0.0,) * len(causes))
    there = supposed(model.tree, known, variable, sure(len(states), state))
    return _chances(there, causes).times(states[state])


def _chances(calibration: Calibration, causes: Sequence[str]) -> Chances:
    """Return P(cause | evidence) of each cause; 0 where the evidence cannot be."""
    if not calibration.is_possible:
        return Chances(0.0, (0.0,) * len(causes))
    return Chances(1.0, tuple(sum(calibration.posterior(cause)[1:]) for cause in causes))


def blend(parts: Sequence[Chances], weights: Sequence[float]) -> Chances:
    """Return the sum of chances, each times its weight."""
    scaled = [part.times(weight) for part, weight in zip(parts, weights, strict=True)]
    columns = zip(*(part.causes for part in scaled), strict=True)
    return Chances(sum(part.whole for part in scaled), tuple(map(sum, columns)))


def with_trouble(seen: Sight, p_right: float) -> Chances:
    """Return what may be and leaves the trouble there."""
    wrong = blend((seen.every, seen.right), (1.0, -p_right))
    return Chances(max(wrong.whole, 0.0), tuple(max(p, 0.0) for p in wrong.causes))


def parts_in(wrong: Chances, right: Chances) -> tuple[float, ...]:
    """Return for each cause the chance that it is behind the trouble, given that it is there.

    >>> parts_in(Chances(0.5, (0.4, 0.1)), Chances(1.0, (0.0, 0.2)))
    (0.8, 0.0)
    """
    pairs = zip(wrong.causes, right.causes, strict=True)
    without = [(p / wrong.whole, q / right.whole if right.whole else 0.0) for p, q in pairs]
    return tuple(max((p - b) / (1.0 - b), 0.0) if b < 1.0 else 0.0 for p, b in without)


def _right(row: Sequence[float]) -> tuple[float, ...]:
    return (1.0, *(0.0 for _ in row[1:]))
