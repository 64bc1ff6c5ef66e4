"""Ways of mending: what somebody does next to a set on the bench, a check or a repair."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from engine.assessing.faulty_set import looks_right
from engine.assessing.manual import Manual
from engine.diagnosis.advising.advice import ranked_causes, step
from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.steps import RankedCause, Step, mendable
from engine.diagnosis.case import Case
from engine.diagnosis.costing.weighing import weigh
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.again import repeats_first
from engine.diagnosis.repairing.present import present

FEW = 3
Act = tuple[str, str]  # "check", "repair", "blind" or "hand-over", and of what
HAND_OVER: Act = ("hand-over", "")
TO_ACT_ON = ("act", "not-in-knowledge", "no-check-left")


@dataclass(frozen=True, slots=True)
class Job:
    """A set on the bench: what the tool believes, what the manual says, what was found so far.

    `may_check` is false once there were as many checks as anybody has patience for.
    """

    model: SetModel
    manual: Manual
    case: Case
    may_check: bool = True


def by_verdict(job: Job) -> Act:
    """Measure until the verdict says to act, then repair what it names first.

    What has to be proved before anybody acts on it comes first. Where no check is left, the
    likeliest of those alike is repaired. Out of patience, without a verdict, so is the likeliest.
    """
    now = step(job.model, job.case, FEW, is_doubting=False)
    if now.verdict.kind in TO_ACT_ON:
        return _acting(job, now)
    if now.verdict.kind in ("measure", "confirm") and now.checks and job.may_check:
        return "check", repeats_first(job.case, now)[0].id
    return HAND_OVER if now.verdict.kind == "nothing-wrong" else _blindly(job, now.causes)


def by_costs(job: Job) -> Act:
    """Do what is cheapest to expect; where no repair is worth trying yet, go by the verdict."""
    now = step(job.model, job.case, FEW, is_doubting=False)
    costs = weigh(job.model, job.case, now)
    if costs is None or not costs.attempts:
        return by_verdict(job)
    if costs.check_first is not None and job.may_check:
        return "check", costs.check_first.check
    first = costs.attempts[0]
    is_looked_at = first.look is not None and job.may_check
    return ("check", first.look.check) if first.look and is_looked_at else ("repair", first.cause)


def by_likeliest(job: Job) -> Act:
    """Replace what is likeliest each time, and check nothing."""
    now = present(job.model, job.case)
    findings, _ = possible_part(now.model, now.findings)
    causes = ranked_causes(now.model, calibrated(now.model, findings))
    return next((("repair", name) for name in _open(job, causes)), HAND_OVER)


def by_prior(job: Job) -> Act:
    """Replace what fails most often of all that the symptoms may follow from, and check nothing."""
    done, model = repaired_already(job.case), job.model
    latest = {each.check: each for each in job.case.all_findings() if each.is_evidence}
    wrong = [
        job.manual.before[model.checks[name].looks_at]
        for name, each in latest.items()
        if model.checks[name].looks_at in job.manual.before and not looks_right(model, each)
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
WITHOUT_CHANCES = ("mend-by-prior",)  # ways that never ask what is likely


def repaired_already(case: Case) -> frozenset[str]:
    """Return what was put right already: nobody does that twice."""
    return frozenset(stretch.repair.cause for stretch in case.past)


def _acting(job: Job, now: Step) -> Act:
    """Return what to do about the first cause of a verdict that was not put right already."""
    done, made = repaired_already(job.case), present(job.model, job.case).made
    for name in now.verdict.causes:
        if name not in done:
            first = (job.model.checks.get(one) for one in job.model.causes[name].prove_first)
            for check in first:
                if check and check.id not in made and job.case.kit.allows(check):
                    return "check", check.id
            return "repair", name
    return _blindly(job, now.causes)


def _blindly(job: Job, causes: tuple[RankedCause, ...]) -> Act:
    return next((("blind", name) for name in _open(job, causes)), HAND_OVER)


def _open(job: Job, causes: tuple[RankedCause, ...]) -> Iterator[str]:
    """Yield what can be repaired and was not, likeliest first."""
    done = repaired_already(job.case)
    yield from (each.id for each in mendable(causes) if each.id not in done)
