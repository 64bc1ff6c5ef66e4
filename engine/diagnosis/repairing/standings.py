"""How the causes stood at the points of a case that a record tells of."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import takewhile

from engine.diagnosis.advising.advice import ranked_causes
from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.steps import RankedCause
from engine.diagnosis.case import Case, Repair
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.again import just_before
from engine.diagnosis.repairing.present import present


@dataclass(frozen=True, slots=True)
class Standing:
    """Every cause, likeliest first, at the complaint, just before a repair, or now.

    `repair` is None but for the second. Each stands as it was known then of the set as it was.
    """

    point: str  # complaint, repair, now
    repair: Repair | None
    causes: tuple[RankedCause, ...]


def standings(model: SetModel, case: Case) -> tuple[Standing, ...]:
    """Return how the causes stood, in order of time; what adds nothing to the next is left out.

    The complaint is what was told of symptoms before the first check; each standing is one pass.
    """
    *earlier, now = _points(model, case)
    later = [then for _, _, then in (*earlier[1:], now)]
    told = [
        each
        for each, following in zip(earlier, later, strict=True)
        if each[2].all_findings() and each[2] != following
    ]
    rows = (*told, now)
    return tuple(Standing(point, repair, _ranked(model, then)) for point, repair, then in rows)


def _points(model: SetModel, case: Case) -> Iterator[tuple[str, Repair | None, Case]]:
    first = just_before(case, 0) if case.past else case
    symptoms = takewhile(lambda f: model.checks[f.check].kind == "symptom", first.findings)
    yield "complaint", None, replace(first, findings=tuple(symptoms))
    for number, stretch in enumerate(case.past):
        yield "repair", stretch.repair, just_before(case, number)
    yield "now", None, case


def _ranked(model: SetModel, case: Case) -> tuple[RankedCause, ...]:
    now = present(model, case)
    findings, _ = possible_part(now.model, now.findings)
    return ranked_causes(now.model, calibrated(now.model, findings))
