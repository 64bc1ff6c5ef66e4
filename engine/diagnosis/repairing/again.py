"""After a repair: whether it put anything right, and which checks to make again, and why."""

from dataclasses import dataclass

from engine.diagnosis.case import Case, Finding, Repair
from engine.diagnosis.conflict import possible_part
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present
from engine.diagnosis.steps import Step
from engine.inference.past import ChangedCalibration


@dataclass(frozen=True, slots=True)
class Again:
    """A check worth making again: what it said before, and what it would tell now."""

    before: Finding
    gain_bits: float


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


def checks_to_repeat(case: Case, now: Step) -> tuple[Again, ...]:
    """Return the checks that were made before a repair and tell something again, by gain."""
    before = {finding.check: finding for stretch in case.past for finding in stretch.findings}
    rows = [(before[each.id], each.gain_bits) for each in now.checks if each.id in before]
    return tuple(Again(finding, gain_bits) for finding, gain_bits in rows)
