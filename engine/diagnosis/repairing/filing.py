"""Repairs in a case file: each says how many findings had been made before it."""

from collections.abc import Iterator

from engine.diagnosis.case import Case, Finding, Kit, Repair, add_finding, repaired
from engine.diagnosis.model import SetModel
from engine.errors import Problem, suggest
from engine.knowledge.casefile import CaseDocument, RepairDocument
from engine.knowledge.reading import Source


def in_stretches(document: CaseDocument, kit: Kit, findings: tuple[Finding, ...]) -> Case:
    """Return the case of a file: its findings, and its repairs where they come in between."""
    case = Case(document.family, kit)
    for number in range(len(findings) + 1):
        for each in document.repairs:
            if each.after == number:
                case = repaired(case, Repair(each.cause, each.how))
        if number < len(findings):
            case = add_finding(case, findings[number])
    return case


def stretch_of(document: CaseDocument, number: int) -> int:
    """Return how many repairs had been made before a finding, counted from 0."""
    return sum(each.after <= number for each in document.repairs)


def repair_documents(case: Case) -> tuple[RepairDocument, ...]:
    """Return the repairs of a case as a file holds them."""
    written, after = [], 0
    for stretch in case.past:
        after += len(stretch.findings)
        repair = {"cause": stretch.repair.cause, "how": stretch.repair.how, "after": after}
        written.append(RepairDocument.model_validate(repair))
    return tuple(written)


def repair_problems(model: SetModel, document: CaseDocument, source: Source) -> Iterator[Problem]:
    """Yield repairs of what cannot be repaired, and those out of the order of time."""
    known = {name: cause for name, cause in model.causes.items() if cause.kind != "event"}
    earlier = 0
    for number, repair in enumerate(document.repairs):
        if repair.cause not in known:
            path, expected = ("repairs", number, "cause"), "a cause that can be put right"
            remedy = suggest(repair.cause, known)
            if repair.cause in model.causes:
                remedy = "What happened to a set is past; name the part that it harmed."
            yield source.problem(path, f"'{repair.cause}'", expected, remedy)
        if not earlier <= repair.after <= len(document.findings):
            path = ("repairs", number, "after")
            expected = f"a number from {earlier} to {len(document.findings)}"
            remedy = "Count the findings made before this repair; put repairs in order of time."
            yield source.problem(path, str(repair.after), expected, remedy)
        earlier = max(earlier, repair.after)
