"""After a repair: whether it put anything right, and which checks to make again, and why."""

from dataclasses import dataclass, replace

from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.steps import ORDERS, AdvisedCheck, Step, mendable, proposed
from engine.diagnosis.case import Case, Finding, Repair
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present
from engine.inference.past import ChangedCalibration

CHANGED_NOTHING, DID_IT = 0.1, 0.9  # chances below and above which a repair is said to have done so
LITTLE_LEFT = 0.1  # no cause is likelier once a set is said to be cured
OPEN_VERDICTS = ("measure", "no-check-left", "nothing-wrong")


@dataclass(frozen=True, slots=True)
class Again:
    """A check worth making again: what it said before, and what it would tell now."""

    before: Finding
    gain_bits: float


@dataclass(frozen=True, slots=True)
class Mended:
    """A repair, and how likely its cause had been there: as known just before it, and by now."""

    repair: Repair
    then: float
    now: float


def was_wrong(model: SetModel, case: Case) -> tuple[tuple[Repair, float], ...]:
    """Return each repair with the chance that its cause had been there before it."""
    now = present(model, case)
    findings, _ = possible_part(now.model, now.findings)
    known = calibrated(now.model, findings)
    if not isinstance(known, ChangedCalibration):
        return ()
    pairs = list(zip(known.changed.branches, known.weights, strict=True))
    return tuple(
        (stretch.repair, min(sum(weight for branch, weight in pairs if branch.was[number]), 1.0))
        for number, stretch in enumerate(case.past)
    )


def mended(model: SetModel, case: Case) -> tuple[Mended, ...]:
    """Return each repair of a case with what was known of its cause before it and by now."""
    rows = []
    for number, (repair, by_now) in enumerate(was_wrong(model, case)):
        then = just_before(case, number)
        before = present(model, then)
        findings, _ = possible_part(before.model, before.findings)
        fine = calibrated(before.model, findings).posterior(repair.cause)[0]
        rows.append(Mended(repair, max(1.0 - fine, 0.0), by_now))
    return tuple(rows)


def has_cured(model: SetModel, case: Case, now: Step) -> bool:
    """Whether the last repair did it: its cause had been there, and no other is likely left.

    Something must have been found since, as only that can tell.
    """
    if not case.past or not case.evidence() or now.verdict.kind not in OPEN_VERDICTS:
        return False
    left = max((each.probability for each in mendable(now.causes)), default=0.0)
    return left < LITTLE_LEFT and was_wrong(model, case)[-1][1] >= DID_IT


def just_before(case: Case, number: int) -> Case:
    """Return a case as it was just before one of its repairs, counted from 0."""
    return replace(case, findings=case.past[number].findings, past=case.past[:number])


def checks_to_repeat(case: Case, now: Step) -> tuple[Again, ...]:
    """Return the checks that were made before a repair and tell something again, by gain."""
    before = {finding.check: finding for stretch in case.past for finding in stretch.findings}
    rows = [(before[each.id], each.gain_bits) for each in now.checks if each.id in before]
    return tuple(Again(finding, gain_bits) for finding, gain_bits in rows)


def repeats_first(case: Case, now: Step) -> tuple[AdvisedCheck, ...]:
    """Return the checks in the order in which they are worth making, after a repair too.

    Until something was found since the last repair, what was found before it comes first again:
    that alone says whether the set has changed. Of these the best in the usual order.
    """
    rows = proposed(now)
    if not case.past or case.evidence():
        return rows
    again = {each.before.check for each in checks_to_repeat(case, now)}
    first = proposed(replace(now, checks=tuple(c for c in now.checks if c.id in again)))
    return (*first, *(each for each in rows if each.id not in again))


def in_order(case: Case, now: Step, order: str) -> tuple[AdvisedCheck, ...]:
    """Return the advised checks in one of `ORDERS`; `worth`, and any unknown one, as above."""
    chosen = ORDERS.get(order, proposed)
    return repeats_first(case, now) if chosen is proposed else chosen(now)
