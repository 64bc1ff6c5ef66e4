"""Visits among the findings and repairs of a case, each where it was made."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from engine.diagnosis.case import Case, Finding, Repair, add_finding, repaired
from engine.diagnosis.model import SetModel
from engine.setting_up.guiding import Visit, with_evidence
from engine.setting_up.sheet import Step


def with_visits(
    model: SetModel, case: Case, visits: Sequence[Visit], sheet: Sequence[Step]
) -> Case:
    """Return the case with what all visits tell of the set, in order of time.

    A visit is made once as many findings are there as it says, and what was repaired by then.
    """
    on_sheet, waiting = {step.id: step for step in sheet}, list(visits)
    made, number = Case(case.family, case.kit), 0
    for event in _events(case):
        if isinstance(event, Repair):
            made = repaired(made, event)
            continue
        while waiting and waiting[0].findings_before == number:
            visit = waiting.pop(0)
            made = with_evidence(model, made, on_sheet[visit.adjustment], visit)
        made, number = add_finding(made, event), number + 1
    for visit in waiting:
        made = with_evidence(model, made, on_sheet[visit.adjustment], visit)
    return made


def moved_along(visits: Sequence[Visit], opened: Case, now: Case) -> tuple[Visit, ...]:
    """Return visits with their places in a case that was gone on with.

    Findings that were added since come after them; of those that were there some may be gone.
    """
    then, there = list(_places(opened)), list(_places(now))
    moved = []
    for visit in visits:
        count = len(then) if visit.findings_before is None else visit.findings_before
        known = set(then[:count])
        last = max((n for n, place in enumerate(there, start=1) if place in known), default=0)
        moved.append(replace(visit, findings_before=last if last < len(there) else None))
    return tuple(moved)


def _events(case: Case) -> Iterator[Finding | Repair]:
    for stretch in case.past:
        yield from stretch.findings
        yield stretch.repair
    yield from case.findings


def _places(case: Case) -> Iterator[tuple[int, str]]:
    """Yield each finding by how many repairs had been made, and its check."""
    for number, stretch in enumerate(case.past):
        yield from ((number, finding.check) for finding in stretch.findings)
    yield from ((len(case.past), finding.check) for finding in case.findings)
