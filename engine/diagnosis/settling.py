"""The kind of set has become clear: the same case as one of that kind."""

from engine.diagnosis.case import Case, Finding, add_finding, repaired
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading


def settled(model: SetModel, case: Case) -> Case:
    """Return a case of an unknown kind as one of `model`; looks at the kind have done their work.

    A finding that this kind of set cannot have is left out.
    """
    known = Case(model.family.id, case.kit)
    for stretch in case.past:
        known = _with(model, known, stretch.findings)
        if stretch.repair.cause in model.causes:
            known = repaired(known, stretch.repair)
    return _with(model, known, case.findings)


def _with(model: SetModel, known: Case, findings: tuple[Finding, ...]) -> Case:
    for finding in findings:
        if finding.check not in model.checks:
            continue
        try:
            known = add_finding(known, read_answer(model, finding.check, finding.said))
        except UnknownReading:  # a number past what this kind can show
            continue
    return known
