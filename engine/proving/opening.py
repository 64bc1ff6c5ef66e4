"""From a proof file to what it proves: every name and every reading held to the sheet."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine.errors import CaseError, Problem, UnknownReading, suggest
from engine.knowledge.filed import answer_words
from engine.knowledge.prooffile import ProofDocument, ReadDocument
from engine.knowledge.reading import Source
from engine.proving.readings import Reading, Typed, enter
from engine.proving.sheet import ProofSheet
from engine.proving.verdict import Proved, prove, rules_of


@dataclass(frozen=True, eq=False)
class ProofCase:
    """What a file proves: the set as it is now, and as it was before the work."""

    title: str
    now: Proved
    before: Proved
    notes: dict[str, str]  # by point


def open_proof(sheet: ProofSheet, document: ProofDocument, source: Source) -> ProofCase:
    """Return what a proof file proves.

    Raises:
        CaseError: with every name that is not known and every reading that makes no sense.
    """
    problems = [*_instruments(sheet, document, source), *_twice(document, source)]
    rules = None
    try:
        rules = rules_of(sheet, document.rules or "")
    except UnknownReading as error:
        problems.append(source.problem(("rules",), error.found, error.expected, error.remedy))
    now, before = ({}, {})  # type: tuple[dict[str, Reading], dict[str, Reading]]
    for number, each in enumerate(document.readings):
        for key, readings in (("reads", now), ("before", before)):
            problems += _entered(sheet, document, source, number, key, readings)
        if each.reads is None and each.before is None:
            path, remedy = ("readings", number), "Write what was read, or leave the point out."
            problems.append(source.problem(path, "no reading", "'reads' or 'before'", remedy))
    if problems or rules is None:
        raise CaseError(problems)
    notes = {each.point: each.note for each in document.readings if each.note}
    title = document.title or ""
    return ProofCase(title, prove(sheet, rules, now), prove(sheet, rules, before), notes)


def _entered(
    sheet: ProofSheet,
    document: ProofDocument,
    source: Source,
    number: int,
    key: str,
    readings: dict[str, Reading],
) -> Iterator[Problem]:
    """Add what stands under a key of a reading to `readings`, or yield what is wrong with it."""
    each = document.readings[number]
    answer = each.reads if key == "reads" else each.before
    if answer is None:
        return
    typed = Typed(answer_words(answer), each.measured_with or "")
    try:
        readings[each.point] = enter(sheet, each.point, typed, document.instruments)
    except UnknownReading as error:
        path = _place(sheet, each, number, key, error)
        yield source.problem(path, error.found, error.expected, error.remedy)


def _place(
    sheet: ProofSheet, each: ReadDocument, number: int, key: str, error: UnknownReading
) -> tuple[str | int, ...]:
    """Return where in the file an unusable reading is to be mended."""
    if error.check.startswith("accuracy of "):
        return ("instruments", error.check.split("'")[1])
    if sheet.point(each.point) is None:
        return ("readings", number, "point")
    if error.expected.startswith("one of "):
        return ("readings", number, "measured-with")
    return ("readings", number, key)


def _instruments(sheet: ProofSheet, document: ProofDocument, source: Source) -> Iterator[Problem]:
    """Yield accuracies of instruments that no point is measured with."""
    known = sorted({meter.instrument for point in sheet.points for meter in point.meters})
    for name in document.instruments:
        if name not in known:
            path, remedy = ("instruments", name), suggest(name, known)
            yield source.problem(path, f"'{name}'", "an instrument of this proof", remedy)


def _twice(document: ProofDocument, source: Source) -> Iterator[Problem]:
    """Yield points that are read twice."""
    names = [each.point for each in document.readings]
    for number, name in enumerate(names):
        if name in names[:number]:
            path, remedy = ("readings", number, "point"), "Keep the reading that holds."
            yield source.problem(path, f"'{name}' again", "each point once", remedy)
