"""Which figures of a point say something: a guide that a limit makes idle is left out."""

from collections.abc import Iterable

from engine.proving.sheet import Bound
from engine.radio.units import convert, unit_of

FLIPPED = {"at-most": "at-least", "at-least": "at-most"}


def useful(bounds: Iterable[Bound], unit: str) -> tuple[Bound, ...]:
    """Return all limits, and the guides that ask more of a reading in `unit` than they do."""
    several = tuple(bounds)
    limits = [each for each in several if not each.is_guide]
    return tuple(
        each
        for each in several
        if not each.is_guide or not any(_idle(each, limit, unit) for limit in limits)
    )


def side(bound: Bound) -> str:
    """Return which side of a bound is right for the number that is read.

    A power told in decibels below another one, or the other way round, turns the side about.
    """
    return FLIPPED[bound.limit.direction] if bound.against else bound.limit.direction


def _idle(guide: Bound, limit: Bound, unit: str) -> bool:
    """Say whether a guide asks no more than a limit, or cannot be compared with it."""
    if side(guide) != side(limit):
        return False
    figures = [_in_unit(each, unit) for each in (guide, limit)]
    if None in figures or guide.against or limit.against:
        return True
    usual, allowed = (float(each or 0.0) for each in figures)
    return usual >= allowed if side(guide) == "at-most" else usual <= allowed


def _in_unit(bound: Bound, unit: str) -> float | None:
    given, wanted = unit_of(bound.limit.unit), unit_of(unit)
    return convert(bound.limit.value, given, wanted) if given and wanted else None
