"""From a case file to a case: every name and every answer held to the set model."""

from collections import Counter
from collections.abc import Iterator
from typing import Any

from engine.diagnosis.case import Case, Kit, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.frequencies.entering import on_its_channel
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.filing import (
    in_stretches,
    repair_documents,
    repair_problems,
    stretch_of,
)
from engine.errors import CaseError, Problem, UnknownReading, suggest
from engine.knowledge.casefile import CaseDocument, FindingDocument, KitDocument, write_case
from engine.knowledge.filed import answer_words
from engine.knowledge.reading import Source


def open_case(model: SetModel, document: CaseDocument, source: Source) -> Case:
    """Return the case in a file.

    Raises:
        CaseError: with every name that is not known and every answer that does not fit.
    """
    problems = [
        *_kit_problems(model, document.kit, source),
        *repair_problems(model, document, source),
        *_repeated(model, document, source),
    ]
    findings = []
    for number, finding in enumerate(document.findings):
        try:
            findings.append(read_answer(model, finding.check, answer_words(finding.answer)))
        except UnknownReading as error:
            problems.append(_answer_problem(model, source, number, finding, error))
    if problems:
        raise CaseError(problems)
    return in_stretches(document, kit_of(model, document.kit), tuple(findings))


def kit_of(model: SetModel, kit: KitDocument) -> Kit:
    """Return the kit of a case file."""
    if kit.instruments == "everything":
        return Kit(full_kit(model).instruments, kit.lid, kit.counter_ppm)
    return Kit(frozenset(kit.instruments), kit.lid, kit.counter_ppm)


def case_file(case: Case) -> str:
    """Return the text of a file from which `open_case` makes the same case."""
    document = CaseDocument(format=1, family=case.family)
    return write_case(document.model_copy(update=_kit_and_findings(case)))


def changed_file(model: SetModel, case: Case, opened: CaseDocument) -> str:
    """Return the file that was `opened` with the kit and findings of the case as it is now.

    What else was written stays; a finding that is still the same keeps its form and its note.
    """
    changes = _kit_and_findings(case)
    written = {(one.check, answer_words(one.answer)): one for one in opened.findings}
    kept = tuple(written.get((one.check, one.answer), one) for one in changes["findings"])
    kit = opened.kit if kit_of(model, opened.kit) == case.kit else changes["kit"]
    return write_case(opened.model_copy(update={**changes, "kit": kit, "findings": kept}))


def _kit_and_findings(case: Case) -> dict[str, Any]:
    kit = KitDocument.model_validate(
        {
            "instruments": tuple(sorted(case.kit.instruments)),
            "lid": case.kit.lid,
            "counter-ppm": case.kit.counter_ppm,
        }
    )
    findings = tuple(FindingDocument(check=f.check, answer=f.said) for f in case.all_findings())
    return {"kit": kit, "findings": findings, "repairs": repair_documents(case)}


def _answer_problem(
    model: SetModel, source: Source, number: int, finding: FindingDocument, error: UnknownReading
) -> Problem:
    key = "answer" if finding.check in model.checks else "check"
    path = ("findings", number, key)
    return source.problem(path, error.found, error.expected, error.remedy)


def _kit_problems(model: SetModel, kit: KitDocument, source: Source) -> Iterator[Problem]:
    for number, name in enumerate(kit.instruments if kit.instruments != "everything" else ()):
        if name not in model.instruments:
            path, remedy = ("kit", "instruments", number), suggest(name, model.instruments)
            yield source.problem(path, f"'{name}'", "an instrument", remedy)


def _repeated(model: SetModel, document: CaseDocument, source: Source) -> Iterator[Problem]:
    """Yield checks that are answered twice between two repairs.

    A frequency may be read on several channels.
    """
    checks = [
        (stretch_of(document, number), _asked(model, finding))
        for number, finding in enumerate(document.findings)
    ]
    counted = Counter(checks)
    for number, (stretch, check) in enumerate(checks):
        if counted[stretch, check] > 1:
            path, remedy = ("findings", number, "check"), "Keep the finding that holds."
            yield source.problem(path, f"'{check}' again", "each check once", remedy)


def _asked(model: SetModel, finding: FindingDocument) -> str:
    """Return the check that a finding is of, with its channel where it has one."""
    try:
        return on_its_channel(model, finding.check, answer_words(finding.answer))[0]
    except UnknownReading:  # told where the answer is read
        return finding.check
