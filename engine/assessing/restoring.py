"""A set from its owner's complaint to the proof that it is right, by following the tool alone.

Diagnosed and repaired until the owner is content or nothing sensible is left to do; what the
repairs moved is set up in order; then it is proved. What will not come right while setting up, and
what fails in the proof, leads back to the diagnosis as a finding; so does what the owner notices
when something was moved and not set right.
"""

from dataclasses import replace

from engine.assessing.adjustments import Adjustable
from engine.assessing.at_work import Shop, Work, latent, spent
from engine.assessing.faulty_set import FaultySet
from engine.assessing.mended import Mended
from engine.assessing.mending import MOST_REPAIRS, told_anew, worked_on
from engine.assessing.proof_readings import proved
from engine.assessing.setting_up import set_up, upset, with_stuck
from engine.assessing.trial import reported
from engine.diagnosis.case import Case, add_finding
from engine.proving.leading_back import as_finding, set_by

MOST_ROUNDS = 4  # ways back to the diagnosis, before the set goes as it is


def restored(shop: Shop, bench: FaultySet) -> Mended:
    """Return what came of a set that was worked on as the plan of the shop says."""
    case = reported(shop.model, Case(shop.model.family.id, shop.plan.kit), bench, shop.plan.report)
    symptoms = tuple(shop.model.symptoms)
    work = Work(shop, Adjustable(bench), case, Mended(bench.there, bench.there), symptoms)
    if work.is_content:
        return replace(work.done, latent=bench.there, is_noticed=False)
    for number in range(MOST_ROUNDS):
        before = _so_far(work)
        work, leads_back = _once(work, number == MOST_ROUNDS - 1)
        if not leads_back or _so_far(work) == before:
            break
    content = replace(work, watched=symptoms).is_content
    return replace(work.done, left=work.bench.there, latent=latent(work.bench), is_content=content)


def _so_far(work: Work) -> tuple[int, int, int]:
    """Return what was done; where a way back leads to nothing more, the next would neither."""
    return work.done.checks, work.done.repairs, work.done.visits


def _once(work: Work, is_last: bool) -> tuple[Work, bool]:
    """Return a set repaired, set up and proved once, and whether that leads back.

    The last time, and once there were as many repairs as anybody makes, what is stuck stays so.
    """
    before = len(work.case.past)
    work = worked_on(work)
    is_last, was_content = is_last or work.done.repairs >= MOST_REPAIRS, work.is_content
    work = upset(work, tuple(each.repair.cause for each in work.case.past[before:]))
    work, stuck = set_up(work, is_last)
    if stuck and not is_last:
        return with_stuck(work, stuck), True
    work, has_failed = _proved(work)
    if has_failed or work.is_content or not was_content:
        return work, has_failed
    return told_anew(work), True


def _proved(work: Work) -> tuple[Work, bool]:
    """Return the work after a proof; what fails, or is poor, is a finding from now on."""
    shop, done, case = work.shop, work.done, work.case
    if shop.sheet is None:
        return work, False
    made = proved(shop.model, shop.sheet, work.bench, case)
    rows = made.proved.rows
    done = replace(
        spent(done, "proving", made.minutes),
        proofs=done.proofs + 1,
        proof=made.proved.verdict if rows else "none",
        points=(len(rows), len(shop.sheet.points)),
    )
    bad = [row for row in rows if row.verdict in ("fail", "poor")]
    findings = [found for _, found in filter(None, (as_finding(shop.model, row) for row in bad))]
    for finding in findings:
        case = add_finding(case, finding)
    to_set = [name for row in bad for name in set_by(shop.model, row.point)]
    work = replace(work, case=case, done=done, since=0, blind=0)
    work = replace(work, to_set=tuple(dict.fromkeys((*work.to_set, *to_set))))
    return work.watching(finding.check for finding in findings), bool(bad)
