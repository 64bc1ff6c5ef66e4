"""The proof of the case at hand: what was typed at its points, held to the rules chosen."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from engine.diagnosis.case import Kit
from engine.errors import UnknownReading
from engine.proving.readings import Reading, Typed, enter
from engine.proving.sheet import Point, ProofSheet
from engine.proving.verdict import Proved, prove, rules_of
from engine.radio.quantities import read_number
from web.accuracies import accuracies_of
from web.proof_log import Entered, ProofLog

FIGURES = re.compile(r"[\d.,]+")
NEAR = 0.02  # of what is right


@dataclass(frozen=True, eq=False)
class ProofCase:
    """The set as it is now, and as it was before the work; `unusable` is told by point."""

    now: Proved
    before: Proved
    unusable: Mapping[str, UnknownReading]


def prove_case(sheet: ProofSheet, log: ProofLog, kit: Kit) -> ProofCase:
    """Return what was typed as a proof; what cannot be used is told and left out.

    Rules that are not for this set give way to its own.
    """
    unusable: dict[str, UnknownReading] = {}
    try:
        rules = rules_of(sheet, log.rules)
    except UnknownReading as problem:
        rules = rules_of(sheet, "")
        unusable["rules"] = problem
    now = _readings(sheet, log.now, kit, unusable)
    before = _readings(sheet, log.before, kit, unusable)
    return ProofCase(prove(sheet, rules, now), prove(sheet, rules, before), unusable)


def _readings(
    sheet: ProofSheet, typed: Mapping[str, Entered], kit: Kit, unusable: dict[str, UnknownReading]
) -> dict[str, Reading]:
    readings: dict[str, Reading] = {}
    for point, each in typed.items():
        try:
            readings[point] = entered(sheet, point, each, kit)
        except UnknownReading as problem:
            unusable[point] = problem
    return readings


def entered(sheet: ProofSheet, point: str, typed: Entered, kit: Kit) -> Reading:
    """Return what was typed at a point as a reading; the instrument is one of the kit, if any is.

    Raises:
        UnknownReading: no such point or instrument, no number, or one that cannot be.
    """
    found = sheet.point(point)
    instrument = typed.instrument or (usual_instrument(found, kit) if found else "")
    said = as_shown(found, typed.said) if found else typed.said
    return enter(sheet, point, Typed(said, instrument), accuracies_of(kit))


def as_shown(point: Point, said: str) -> str:
    """Return what a counter shows with its unit, where figures alone stand in a field for MHz.

    A sign makes it an error, and so does a number that is far from what is right.
    """
    if point.quantity != "frequency-error" or not FIGURES.fullmatch(said):
        return said
    try:
        mhz = read_number(said, "MHz")
    except ValueError:  # told where it is entered
        return said
    return f"{said} MHz" if abs(mhz - point.right_mhz) < NEAR * point.right_mhz else said


def usual_instrument(point: Point, kit: Kit) -> str:
    """Return the first instrument of a point that is in the kit, else its first, if it has any."""
    names = [meter.instrument for meter in point.meters]
    return next((name for name in names if name in kit.instruments), (*names, "")[0])
