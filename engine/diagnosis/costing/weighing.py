"""Repair now, or measure on: the expected cost of both, in minutes.

References:
    Heckerman, Breese & Rommelse, Decision-theoretic troubleshooting, Communications of the ACM
    38(3) (1995) 49-57: expected cost of repair, and one observation ahead of it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.effort import effort
from engine.diagnosis.advising.foresight import outcomes_of
from engine.diagnosis.advising.steps import Step, by_minutes, mendable, proposed
from engine.diagnosis.case import Case
from engine.diagnosis.costing.blame import (
    Chances,
    Sight,
    Trouble,
    blend,
    parts_in,
    sight,
    sight_in_state,
    trouble,
    with_trouble,
)
from engine.diagnosis.costing.work import Look, Work, works
from engine.diagnosis.evidence import calibrated, likelihoods
from engine.diagnosis.kinds import KIND
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.repairing.present import present
from engine.inference.repairs import Plan, Trial, cheapest_plan

OF_THE_SET = KIND.partition(".")[0]  # the block of checks that look at the set as a whole
SUSPECT = 1e-6  # a cause that is less likely than that is left to the last resort
BEST_NEXT, BEST_A_MINUTE, STRAIGHT = 3, 2, 2  # checks looked at: see `_looked_at`


@dataclass(frozen=True, slots=True)
class Attempt:
    """A repair to try: the chance that it ends the trouble, and what it takes.

    With a look, the repair is made only where that shows the cause to be there.
    """

    cause: str
    chance: float
    minutes: float  # of the repair
    look: Look | None


@dataclass(frozen=True, slots=True)
class CheckFirst:
    """A check before any repair: its effort, and what is to be expected of all that follows."""

    check: str
    effort_min: float
    expected_min: float  # the effort included


@dataclass(frozen=True, slots=True)
class Costs:
    """What may be done now. `attempts` in the order in which to try them, then somebody else.

    `expected_min` is what repairing now comes to; `checks` in rising cost.
    """

    trouble: tuple[str, ...]  # the signals and causes that are wrong
    attempts: tuple[Attempt, ...]
    expected_min: float
    hand_over_min: float
    checks: tuple[CheckFirst, ...]

    @property
    def check_first(self) -> CheckFirst | None:
        """The check that makes all of it cheaper than repairing now, None where none does."""
        best = next(iter(self.checks), None)
        return best if best and best.expected_min < self.expected_min else None


@dataclass(frozen=True, slots=True)
class _Bench:
    """What does not change from one check to the next; `works` where a repair can be made."""

    model: SetModel
    trouble: Trouble
    causes: tuple[str, ...]
    works: Mapping[str, Work]
    hand_over_min: float

    def plan(self, seen: Sight) -> tuple[Plan, Mapping[str, Look | None]]:
        """Return the cheapest plan, and the looks it makes, by cause."""
        parts = parts_in(with_trouble(seen, self.trouble.p_right), seen.right)
        trials: list[Trial] = []
        looks: dict[str, Look | None] = {}
        for name, part in zip(self.causes, parts, strict=True):
            if part > 0.0 and name in self.works:
                trial, looks[name] = self.works[name].trial(part, self.hand_over_min)
                trials.append(trial)
        return cheapest_plan(trials, self.hand_over_min, sum(parts)), looks


def weigh(model: SetModel, case: Case, now: Step) -> Costs | None:
    """Return what repairing now comes to, and what it comes to after one more check.

    None where nothing is known to be wrong, where the kind of set is not known, or the knowledge
    has no table of repairs. Chances are given that the trouble is there. Checks of frequencies, of
    what comes and goes and of the kind of set are not looked at. Readings count by the state they
    point to, so that a check with a number is worth a little more than is said here.

    Args:
        model: the set.
        case: the case.
        now: its step, with all checks.
    """
    bench = _bench(model, case, now)
    if bench is None:
        return None
    plan, looks = bench.plan(sight(bench.trouble, bench.causes))
    minutes = effort(model, case)
    checks = [
        CheckFirst(check.id, minutes(check), minutes(check) + _after(bench, check))
        for check in _looked_at(model, now, plan)
    ]
    return Costs(
        trouble=bench.trouble.signals,
        attempts=tuple(
            Attempt(each.name, each.p, bench.works[each.name].minutes, looks[each.name])
            for each in plan.order
        ),
        expected_min=plan.cost,
        hand_over_min=bench.hand_over_min,
        checks=tuple(sorted(checks, key=lambda row: (round(row.expected_min, 9), row.check))),
    )


def _bench(model: SetModel, case: Case, now: Step) -> _Bench | None:
    if model.mending is None or now.kinds:
        return None
    here, told, _ = present(model, case)
    findings, _ = possible_part(here, told)
    found = trouble(here, likelihoods(here, findings), calibrated(here, findings))
    if found is None:
        return None
    causes = tuple(row.id for row in mendable(now.causes) if row.probability >= SUSPECT)
    needed = works(model, model.mending, case, [row.id for row in now.checks])
    can_be = {name: work for name in causes if (work := needed(model.causes[name])) is not None}
    return _Bench(here, found, causes, can_be, model.mending.hand_over_min)


def _looked_at(model: SetModel, now: Step, plan: Plan) -> Iterator[CheckText]:
    """Yield the checks that may be worth it: those proposed, and those straight at a suspect."""
    best, quick = (
        [check for row in rows if _is_plain(check := model.checks[row.id])]
        for rows in (proposed(now), by_minutes(now))
    )
    suspects = {each.name for each in plan.order[:STRAIGHT]}
    straight = [check for check in best if check.looks_at in suspects]
    looked_at = [*best[:BEST_NEXT], *quick[:BEST_A_MINUTE], *straight]
    yield from {check.id: check for check in looked_at}.values()


def _is_plain(check: CheckText) -> bool:
    """Whether a check looks at one thing in the tables, whatever kind of set it is."""
    return check.at is None and check.block != OF_THE_SET


def _after(bench: _Bench, check: CheckText) -> float:
    """Return what repairing comes to once a check was made, in minutes, its answers averaged."""
    parts = [
        sight_in_state(bench.model, bench.trouble, bench.causes, check.looks_at, state)
        for state in range(len(check.channel.rows))
    ]
    total, weights = 0.0, 0.0
    for *_, shows in outcomes_of(check):
        seen = _blended(parts, shows)
        weight = with_trouble(seen, bench.trouble.p_right).whole
        if weight > 0.0:
            total += weight * bench.plan(seen)[0].cost
            weights += weight
    return total / weights


def _blended(parts: Sequence[Sight], shows: Sequence[float]) -> Sight:
    every: list[Chances] = [part.every for part in parts]
    return Sight(blend(every, shows), blend([part.right for part in parts], shows))
