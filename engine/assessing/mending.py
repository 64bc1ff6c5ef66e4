"""Sets brought back to their shelf: diagnosed, repaired, tried again, until the owner is content.

The owner takes a set back when every signal that a symptom looks at is right; whoever works on it
does not know that, and is told the symptoms again after each repair that did not do it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from engine.assessing.faulty_set import FaultySet, Way, looks_right
from engine.assessing.manual import Manual
from engine.assessing.trial import Plan, reported
from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.effort import effort
from engine.diagnosis.advising.steps import mendable, proposed
from engine.diagnosis.case import Case, Repair, add_finding, repaired
from engine.diagnosis.costing.weighing import weigh
from engine.diagnosis.costing.work import works
from engine.diagnosis.evidence import is_usual
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present

MOST_REPAIRS = 12
FEW = 3
Act = tuple[str, str]  # "check", "repair" or "hand-over", and of what
HAND_OVER: Act = ("hand-over", "")


@dataclass(frozen=True, slots=True)
class Mended:
    """What came of one set; a repair is needless when its cause was not there."""

    there: tuple[Way, ...]
    left: tuple[Way, ...]
    is_content: bool = False
    checks: int = 0
    repairs: int = 0
    needless: int = 0
    minutes: float = 0.0  # checks with their effort, and repairs


@dataclass(frozen=True, slots=True)
class Job:
    """A set on the bench: what the tool believes, what the manual says, what was found so far."""

    model: SetModel
    manual: Manual
    case: Case


def by_verdict(job: Job) -> Act:
    """Measure until the verdict says to act, then repair what it names first."""
    now = step(job.model, job.case, FEW)
    if now.verdict.kind in ("act", "no-check-left"):
        names = [name for name in now.verdict.causes if name not in repaired_already(job.case)]
        return ("repair", names[0]) if names else HAND_OVER
    if now.verdict.kind in ("measure", "confirm") and now.checks:
        return "check", proposed(now)[0].id
    return HAND_OVER


def by_costs(job: Job) -> Act:
    """Do what is cheapest to expect; where no repair is worth trying yet, go by the verdict."""
    now = step(job.model, job.case, FEW)
    costs = weigh(job.model, job.case, now)
    if costs is not None and costs.check_first is not None:
        return "check", costs.check_first.check
    if costs is None or not costs.attempts:
        return by_verdict(job)
    first = costs.attempts[0]
    return ("check", first.look.check) if first.look else ("repair", first.cause)


def by_likeliest(job: Job) -> Act:
    """Replace what is likeliest each time, and check nothing."""
    done = repaired_already(job.case)
    causes = mendable(step(job.model, job.case, FEW).causes)
    return next((("repair", each.id) for each in causes if each.id not in done), HAND_OVER)


def by_prior(job: Job) -> Act:
    """Replace what fails most often of all that the symptoms may follow from, and check nothing."""
    done, model = repaired_already(job.case), job.model
    wrong = [
        job.manual.before[model.checks[each.check].looks_at]
        for each in job.case.all_findings()
        if model.checks[each.check].looks_at in job.manual.before and not looks_right(model, each)
    ]
    reach = frozenset[str]().union(*wrong)
    names = [c for c in model.causes.values() if c.kind != "event" and c.id in reach]
    names.sort(key=lambda cause: (-cause.prior, cause.id))
    return next((("repair", each.id) for each in names if each.id not in done), HAND_OVER)


WAYS: Mapping[str, Callable[[Job], Act]] = {
    "mend-by-verdict": by_verdict,
    "mend-by-costs": by_costs,
    "mend-likeliest": by_likeliest,
    "mend-by-prior": by_prior,
}
WAY_TITLES: Mapping[str, str] = {
    "mend-by-verdict": "Measure until told to act, then repair",
    "mend-by-costs": "Repair or measure on, whichever is cheaper to expect",
    "mend-likeliest": "Replace the likeliest part each time",
    "mend-by-prior": "Replace what fails most often",
}


def repaired_already(case: Case) -> frozenset[str]:
    """Return what was put right already: nobody does that twice."""
    return frozenset(stretch.repair.cause for stretch in case.past)


def is_content(bench: FaultySet) -> bool:
    """Whether every signal that a symptom looks at is right."""
    looked_at = {bench.model.checks[name].looks_at for name in bench.model.symptoms}
    return not any(bench.truth.get(signal, 0) for signal in looked_at)


def mend(model: SetModel, manual: Manual, bench: FaultySet, plan: Plan) -> Mended:
    """Work on a set until its owner is content, nothing is left to do, or it takes too long.

    A repair of a cause that is there takes it away, for sure; of another it only takes time.
    """
    case = reported(model, Case(model.family.id, plan.kit), bench, plan.report)
    done = Mended(bench.there, bench.there)
    while not is_content(bench):
        act, name = WAYS[plan.policy](Job(model, manual, case))
        is_over = done.checks >= plan.most_checks if act == "check" else act == "hand-over"
        if is_over or done.repairs >= MOST_REPAIRS:
            break
        if act == "check":
            minutes = done.minutes + effort(model, case)(model.checks[name])
            done = replace(done, minutes=minutes, checks=done.checks + 1)
            case = add_finding(case, bench.answer(name))
        else:
            done = _after_repair(done, model, case, bench, name)
            bench = bench.put_right(name)
            case = repaired(case, Repair(name, "replaced"))
            case = _told_again(model, case, bench, plan)
    return replace(done, left=bench.there, is_content=is_content(bench))


def _after_repair(done: Mended, model: SetModel, case: Case, bench: FaultySet, name: str) -> Mended:
    work = works(model, model.mending, case, ())(model.causes[name]) if model.mending else None
    minutes = work.minutes if work else model.mending.hand_over_min if model.mending else 0.0
    needless = name not in {cause for cause, _ in bench.there}
    return replace(
        done,
        minutes=done.minutes + minutes,
        repairs=done.repairs + 1,
        needless=done.needless + needless,
    )


def _told_again(model: SetModel, case: Case, bench: FaultySet, plan: Plan) -> Case:
    """Return the case with what the owner told before, as it is now, and what is new and bad.

    What does not hang on a repaired cause stands as it was told, and is not told again.
    """
    before = {finding.check for finding in case.all_findings()}
    standing = present(model, case).made
    for name in (each for each in model.symptoms if each not in standing):
        finding = bench.answer(name)
        if name in before or plan.report == "asked" or not is_usual(bench.model, finding):
            case = add_finding(case, finding)
    return case
