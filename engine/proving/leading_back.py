"""From a point that fails back to the diagnosis: the check that finds the same out."""

from collections.abc import Iterator

from engine.diagnosis.case import Finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import CheckText, SetModel
from engine.errors import UnknownReading
from engine.proving.sheet import Point
from engine.proving.verdict import Row
from engine.radio.figures import shown


def same_checks(model: SetModel, point: Point) -> Iterator[CheckText]:
    """Yield the checks of a set that find out what a point does, that of its channel first."""
    for name in point.same_as:
        for check in (f"{name}@{point.channel}", name):
            if check in model.checks:
                yield model.checks[check]


def set_by(model: SetModel, point: Point) -> tuple[str, ...]:
    """Return the adjustments that are set by what a point reads, in order of knowledge."""
    if model.setting_up is None:
        return ()
    read = {check.id.partition("@")[0] for check in same_checks(model, point)}
    return tuple(
        name
        for name, setting in model.setting_up.settings.items()
        if read & {one.check.partition("@")[0] for one in setting.wanted}
    )


def as_finding(model: SetModel, row: Row) -> tuple[str, Finding] | None:
    """Return the check of the diagnosis that finds the same out, with what was read as its answer.

    None where the set has no such check, or none that takes the reading.
    """
    if row.reading is None:
        return None
    for check in same_checks(model, row.point):
        finding = _taken(model, check.id, row)
        if finding is not None:
            return check.id, finding
    return None


def _taken(model: SetModel, check: str, row: Row) -> Finding | None:
    """Return a reading as the answer to a check, None where it does not take it.

    A check tells decibels below the carrier with their sign.
    """
    assert row.reading is not None
    value, unit = row.reading.value, row.point.unit
    if unit == "dB":
        value = -value
    sign = "+" if row.point.quantity == "frequency-error" and value > 0.0 else ""
    try:
        return read_answer(model, check, f"{sign}{shown(float(f'{value:.6g}'))} {unit}")
    except UnknownReading:
        return None
