"""From the `set-up` list of a case file to visits: every name and every reading looked at."""

from collections.abc import Iterator, Mapping

from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.errors import CaseError, Problem, UnknownReading, suggest
from engine.knowledge.casefile import CaseDocument, VisitDocument
from engine.knowledge.filed import Answer, answer_words
from engine.knowledge.reading import Source
from engine.setting_up.guiding import Visit, with_evidence
from engine.setting_up.sheet import Step, steps
from engine.setting_up.verdict import Entry, verdict

Path = tuple[str | int, ...]
NOTHING = "-"  # stands for nothing read, where several are listed


def open_visits(
    model: SetModel, case: Case, document: CaseDocument, source: Source, rules: str = ""
) -> tuple[Visit, ...]:
    """Return the visits in a case file, in its order.

    Raises:
        CaseError: with every adjustment that the set does not have and every reading that is none.
    """
    sheet = {step.id: step for step in steps(model, case, None, rules)}
    problems: list[Problem] = []
    visits: list[Visit] = []
    for number, each in enumerate(document.set_up):
        visit = visit_of(each)
        problems += _problems(model, case, sheet, visit, ("set-up", number), source)
        visits.append(visit)
    problems += _places(document, source)
    if problems:
        raise CaseError(problems)
    return tuple(visits)


def visit_of(document: VisitDocument) -> Visit:
    """Return a visit as it stands in a file; one with nothing read leaves its step out."""
    before, after = _texts(document.before), _texts(document.after)
    count = max(len(before), len(after))
    before += [""] * (count - len(before))
    after += [""] * (count - len(after))
    entries = tuple(Entry(*pair) for pair in zip(before, after, strict=True))
    return Visit(document.adjustment, entries, document.gave_up, document.findings_before)


def visit_document(visit: Visit) -> VisitDocument:
    """Return a visit as a file holds it; `visit_of` makes the same visit of it."""
    before = tuple(entry.before or NOTHING for entry in visit.entries)
    after = tuple(entry.after or NOTHING for entry in visit.entries)
    has_after = any(entry.after for entry in visit.entries)
    before_it = visit.findings_before
    data = {"adjustment": visit.adjustment, "gave-up": visit.gave_up, "findings-before": before_it}
    read = {"before": before, "after": after if has_after else None} if before else {}
    return VisitDocument.model_validate({**data, **read})


def _texts(answers: Answer | tuple[Answer, ...] | None) -> list[str]:
    if answers is None:
        return []
    texts = [answer_words(each) for each in (answers if isinstance(answers, tuple) else (answers,))]
    return ["" if text == NOTHING else text for text in texts]


def _places(document: CaseDocument, source: Source) -> Iterator[Problem]:
    """Yield visits that say they were made before others of an earlier place, or after the end."""
    earlier, most = 0, len(document.findings)
    for number, each in enumerate(document.set_up):
        place = most if each.findings_before is None else each.findings_before
        if earlier <= place <= most:
            earlier = place
        else:
            path = ("set-up", number, "findings-before")
            remedy = "Count the findings made before this visit; put visits in order of time."
            yield source.problem(path, str(place), f"a number from {earlier} to {most}", remedy)


def _problems(
    model: SetModel,
    case: Case,
    sheet: Mapping[str, Step],
    visit: Visit,
    path: Path,
    source: Source,
) -> Iterator[Problem]:
    """Yield what is wrong with one visit."""
    step = sheet.get(visit.adjustment)
    if step is None:
        found, remedy = f"'{visit.adjustment}'", suggest(visit.adjustment, sheet)
        yield source.problem((*path, "adjustment"), found, "an adjustment of this set", remedy)
        return
    if len(visit.entries) > len(step.wanted):
        wanted = "; ".join(each.said for each in step.wanted)
        expected, remedy = f"{len(step.wanted)} at most", f"Wanted here, in order: {wanted}."
        yield source.problem(path, f"{len(visit.entries)} readings", expected, remedy)
        return
    try:
        verdict(model, case.kit, step, visit.entries)
        with_evidence(model, case, step, visit)
    except UnknownReading as error:
        key = _key(model, case, step, visit)
        yield source.problem((*path, *key), error.found, error.expected, error.remedy)


def _key(model: SetModel, case: Case, step: Step, visit: Visit) -> Path:
    """Return which side of a visit cannot be read; nothing where only both together cannot."""
    sides = {
        "before": tuple(Entry(before=entry.before) for entry in visit.entries),
        "after": tuple(Entry(after=entry.after) for entry in visit.entries),
    }
    for key, entries in sides.items():
        try:
            verdict(model, case.kit, step, entries)
            with_evidence(model, case, step, Visit(step.id, entries))
        except UnknownReading:
            return (key,)
    return ()
