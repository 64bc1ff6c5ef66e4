"""A reading held to a figure, with a guard band on both sides of it.

Decision rule: guarded acceptance and guarded rejection with a guard band of one expanded
uncertainty, k = 2 (JCGM 106:2012, clause 8.3.3, from memory). Between the two the answer is that
the instrument cannot tell. Simple acceptance, the shared risk of ETSI TR 100 028, is for markets
where the uncertainty of every method is capped; a bench of old instruments has no such cap, so it
is not used for limits. A guide, which no rule set asks for, is held without a guard band.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import erf, hypot, log, sqrt

from engine.diagnosis.judging import Judgement, judge
from engine.diagnosis.model import LimitText
from engine.proving.readings import LEAST, Reading
from engine.proving.sheet import Bound, Point
from engine.radio.power import decibels_below, power_below
from engine.radio.units import convert, unit_of

DECIBEL = 10.0 / log(10.0)  # of a power, for a relative change


@dataclass(frozen=True, slots=True)
class Held:
    """A bound and what a reading says of it; `p_kept` is the chance that it is kept.

    `judgement` is in the unit of the reading where that can be, else in that of the bound.
    """

    bound: Bound
    judgement: Judgement
    p_kept: float

    @property
    def is_kept(self) -> bool:
        """Whether the value itself, without any guard band, is on the right side."""
        size, limit = abs(self.judgement.value), self.judgement
        most = limit.limit.direction == "at-most"
        return size <= limit.bound if most else size >= limit.bound


def hold(point: Point, bound: Bound, reading: Reading, others: Mapping[str, Reading]) -> Held:
    """Return what a reading says of a bound; the point it is told against has been read."""
    if bound.against:
        limit, value, sd = _against(point, bound, reading, others[bound.against])
        return _held(bound, judge(limit, value, sd))
    if bound.limit.unit == "ppm":
        return _held(bound, judge(bound.limit, reading.value, reading.sd, point.right_mhz))
    given, wanted = unit_of(bound.limit.unit), unit_of(point.unit)
    assert given is not None, bound.limit.unit
    assert wanted is not None, point.unit
    figure = convert(bound.limit.value, given, wanted)
    assert figure is not None, f"{point.id}: {bound.limit.unit} cannot be held to {point.unit}"
    limit = replace(bound.limit, value=figure, unit=point.unit)
    return _held(bound, judge(limit, reading.value, reading.sd))


def _held(bound: Bound, judgement: Judgement) -> Held:
    return Held(bound, judgement, kept_chance(judgement))


def kept_chance(judgement: Judgement) -> float:
    """Return the chance that a limit is kept, the value being normal about what was read.

    References:
        JCGM 106:2012, clause 7: conformance probability for a normal density (from memory).
    """
    room = judgement.bound - abs(judgement.value)
    if judgement.limit.direction == "at-least":
        room = -room
    sd = judgement.guard / 2.0
    if sd == 0.0:
        return 1.0 if room >= 0.0 else 0.0
    return 0.5 * (1.0 + erf(room / (sd * sqrt(2.0))))


def _against(
    point: Point, bound: Bound, reading: Reading, other: Reading
) -> tuple[LimitText, float, float]:
    """Return a power as decibels below another, or decibels as a power, in the bound's unit.

    Errors of the two readings are taken as independent; those of one meter partly cancel, so the
    guard band is rather too wide.
    """
    high, share = max(other.value, LEAST), other.sd / max(other.value, LEAST)
    if point.unit != "dB":
        low = max(reading.value, LEAST)
        sd = DECIBEL * hypot(share, reading.sd / low)
        return bound.limit, decibels_below(high, low), sd
    unit = unit_of(bound.limit.unit)
    assert unit is not None
    value = power_below(high, reading.value) / unit.factor
    return bound.limit, value, value * hypot(share, reading.sd / DECIBEL)
