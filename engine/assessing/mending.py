"""Sets on the bench: diagnosed, repaired, tried again, until the owner is content.

The owner takes a set back when every signal that a symptom looks at is right; whoever works on it
does not know that, and is told the symptoms again after each repair that did not do it.
"""

from dataclasses import replace

from engine.assessing.at_work import Work, spent
from engine.assessing.faulty_set import looks_right
from engine.assessing.mended import Mended
from engine.assessing.ways import WAYS, WITHOUT_CHANCES, Job
from engine.diagnosis.advising.effort import effort
from engine.diagnosis.case import Case, Repair, add_finding, repaired, usual_how
from engine.diagnosis.costing.work import works
from engine.diagnosis.evidence import is_usual
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present

MOST_REPAIRS = 12
MOST_BLIND = 3  # repairs in a row that no verdict named, before it is somebody else's turn


def worked_on(work: Work) -> Work:
    """Return a set worked on until its owner is content, or nothing sensible is left to do.

    Between two repairs there are at most as many checks as the plan allows; after them repairs
    without a verdict, a few. A repair of a cause that is there takes it away, for sure; of another
    it only takes time.
    """
    plan, act = work.shop.plan, WAYS[work.shop.plan.policy]
    while not work.is_content and work.done.repairs < MOST_REPAIRS:
        may_check = work.since < plan.most_checks
        kind, name = act(Job(work.shop.model, work.shop.manual, work.case, may_check))
        if kind == "check" and may_check:
            work = _checked(work, name)
        elif kind == "repair" or (kind == "blind" and work.blind < MOST_BLIND):
            work = _repaired(work, name, kind == "blind")
        else:
            break
    return work


def _checked(work: Work, name: str) -> Work:
    model, done = work.shop.model, work.done
    minutes = effort(model, work.case)(model.checks[name])
    done = replace(spent(done, "checks", minutes), checks=done.checks + 1)
    case = add_finding(work.case, work.bench.answer(name))
    return replace(work, case=case, done=done, since=work.since + 1)


def _repaired(work: Work, name: str, is_blind: bool) -> Work:
    """Return the work after a repair, with what the owner says of the set then."""
    model, before = work.shop.model, work
    minutes = repair_min(model, work.case, name)
    done = _counted(spent(work.done, "repairs", minutes), work, name, is_blind)
    case = repaired(work.case, Repair(name, usual_how(model.causes[name].kind)))
    work = replace(
        work,
        set=work.set.repaired(name),
        case=case,
        done=done,
        since=work.since if is_blind else 0,
        blind=work.blind + 1 if is_blind else 0,
    )
    return replace(work, case=_told_again(work, before.case, name))


def _counted(done: Mended, work: Work, name: str, is_blind: bool) -> Mended:
    needless = name not in {cause for cause, _ in work.bench.there}
    return replace(
        done,
        repairs=done.repairs + 1,
        needless=done.needless + needless,
        blind=done.blind + is_blind,
    )


def repair_min(model: SetModel, case: Case, name: str) -> float:
    """Return what a repair takes, in minutes; one that cannot be made here as much as handing over.

    Part, lid and trying whether it did it are among them; where the knowledge has no minutes, 0.
    """
    if model.mending is None:
        return 0.0
    work = works(model, model.mending, case, ())(model.causes[name])
    return work.minutes if work else model.mending.hand_over_min


def _told_again(work: Work, before: Case, name: str) -> Case:
    """Return the case with what is watched as it is now, and what is new and bad.

    What does not hang on the repaired cause stands as it was told, and is not told again.
    """
    case, bench, report = work.case, work.bench, work.shop.plan.report
    known = {finding.check for finding in before.all_findings()}
    for check in work.watched:
        if _stands(work, before, name, check):
            continue
        finding = bench.answer(check)
        if check in known or report == "asked" or not is_usual(bench.model, finding):
            case = add_finding(case, finding)
    return case


def told_anew(work: Work) -> Work:
    """Return the work with everything watched that is bad now, as it was handed back."""
    case, bench = work.case, work.bench
    for finding in map(bench.answer, work.watched):
        if not looks_right(bench.model, finding):
            case = add_finding(case, finding)
    return replace(work, case=case, since=0, blind=0)


def _stands(work: Work, before: Case, name: str, check: str) -> bool:
    """Whether a finding from before a repair still holds; by the circuit, where none is weighed."""
    if work.shop.plan.policy not in WITHOUT_CHANCES:
        return check in present(work.shop.model, work.case).made
    looks_at = work.shop.model.checks[check].looks_at
    hangs_on_it = name in work.shop.manual.before.get(looks_at, frozenset())
    return not hangs_on_it and any(each.check == check for each in before.all_findings())
