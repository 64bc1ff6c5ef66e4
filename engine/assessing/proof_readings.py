"""What is read when a simulated set is proved, out of its true state with the instrument's error.

A point is read by the check that finds the same out: its reading is drawn as in the diagnosis, the
instrument's error in it, but not misread, as a reading that decides is taken twice. Points without
such a check are not simulated, and the proof is held without them.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from engine.assessing.faulty_set import FaultySet
from engine.diagnosis.advising.effort import effort
from engine.diagnosis.case import Case, add_finding
from engine.diagnosis.model import CheckText, SetModel
from engine.errors import UnknownReading
from engine.proving.leading_back import same_checks
from engine.proving.readings import Reading, Typed, enter
from engine.proving.sheet import Point, ProofSheet
from engine.proving.verdict import Proved, prove, rules_of


@dataclass(frozen=True, slots=True)
class ProofMade:
    """The proof of a set: what it says, and the minutes it took, those of the checks read."""

    proved: Proved
    minutes: float


def proved(model: SetModel, sheet: ProofSheet, bench: FaultySet, case: Case) -> ProofMade:
    """Return the proof of a set, of the points that can be simulated, under its own rules."""
    pairs = dict(_read(model, sheet, bench, case))
    points = tuple(point for point in sheet.points if point.id in pairs)
    shown = replace(sheet, points=points)
    readings = {name: reading for name, (reading, _) in pairs.items()}
    minutes, at_hand = 0.0, case
    for _, check in pairs.values():
        minutes += effort(model, at_hand)(check)
        at_hand = add_finding(at_hand, bench.answer(check.id))
    return ProofMade(prove(shown, rules_of(sheet, ""), readings), minutes)


def _read(
    model: SetModel, sheet: ProofSheet, bench: FaultySet, case: Case
) -> Iterator[tuple[str, tuple[Reading, CheckText]]]:
    """Yield each point that can be read with this kit, its reading, and the check it is read by."""
    for point in sheet.points:
        meters = [one.instrument for one in point.meters if one.instrument in case.kit.instruments]
        for check in same_checks(model, point):
            if meters and check.meter is not None and case.kit.allows(check):
                said = _said(bench, point, check)
                try:
                    reading = enter(sheet, point.id, Typed(said, meters[0]), {})
                except UnknownReading:
                    continue  # a reading in a unit that the point does not take
                yield point.id, (reading, check)
                break


def _said(bench: FaultySet, point: Point, check: CheckText) -> str:
    """Return what the instrument shows."""
    value = bench.reading(check, bench.dice(f"proof {point.id}"))
    sign = "+" if point.quantity == "frequency-error" and value >= 0.0 else ""
    return f"{sign}{value:.6g} {check.unit}"
