"""Whether a reading keeps a limit, as far as the instrument can tell.

References:
    JCGM 106:2012, Evaluation of measurement data: guarded acceptance and guarded rejection with a
    guard band of one expanded uncertainty, k = 2 (from memory).
"""

from dataclasses import dataclass
from typing import Literal

from engine.diagnosis.case import Finding
from engine.diagnosis.model import CheckText, LimitText, SetModel
from engine.radio.figures import shown, three
from engine.radio.units import convert, unit_of

Verdict = Literal["within", "beyond", "cannot-tell"]
COVERAGE = 2.0  # standard deviations in an expanded uncertainty
READ = {"read": "as read", "second-hand": "second-hand", "memory": "from memory"}


@dataclass(frozen=True, slots=True)
class Judgement:
    """A value held to a limit; everything in `unit`, that of the limit or, for ppm, of the value.

    `guard` is the expanded uncertainty of the instrument, `needed` the largest one that could tell.
    """

    verdict: Verdict
    value: float
    unit: str
    limit: LimitText
    bound: float  # the limit, in `unit`
    guard: float
    needed: float


def judge(limit: LimitText, value: float, sd: float, carrier_mhz: float | None = None) -> Judgement:
    """Return whether a value keeps a limit, leaving a guard band on both sides of it.

    Args:
        limit: a figure of a rule set.
        value: in the unit of the limit; in kHz when the limit is in ppm and a carrier is given.
        sd: standard deviation of the instrument at that value, in its unit, at least 0.
        carrier_mhz: what the ppm are of.

    >>> most = LimitText("p", "r", 4.0, "W", "at-most", "", "s", "read")
    >>> [judge(most, watt, 0.2).verdict for watt in (3.5, 3.9, 4.5)]
    ['within', 'cannot-tell', 'beyond']
    """
    of_carrier = limit.unit == "ppm" and carrier_mhz is not None
    bound = limit.value * (carrier_mhz or 0.0) / 1000.0 if of_carrier else limit.value
    unit = "kHz" if of_carrier else limit.unit
    size, guard = abs(value), COVERAGE * sd
    # Above 0 on the right side of the limit.
    room = bound - size if limit.direction == "at-most" else size - bound
    verdict: Verdict = "cannot-tell"
    if room >= guard:
        verdict = "within"
    elif room < -guard:
        verdict = "beyond"
    return Judgement(verdict, value, unit, limit, bound, guard, abs(room))


def judged(model: SetModel, finding: Finding) -> Judgement | None:
    """Return the judgement of a reading; None where no limit of the family's rules applies.

    An error in kHz is held to ppm of the right frequency, or else of the lowest channel: the
    strictest.
    """
    check = model.checks[finding.check]
    limit = model.limits.get(check.limit or "")
    if limit is None or finding.value is None or check.accuracy is None:
        return None
    percent, fixed = check.accuracy
    sd = percent / 100.0 * abs(finding.value) + fixed
    if limit.unit == "ppm" and check.unit != "ppm":
        lowest = min((mhz for _, mhz in model.carriers_mhz), default=None)
        wanted, carrier = "kHz", check.nominal_mhz or lowest
    else:
        wanted, carrier = limit.unit, None
    low, middle, high = (
        _turned(value, check, wanted)
        for value in (max(finding.value - sd, 0.0), finding.value, finding.value + sd)
    )
    if low is None or middle is None or high is None:
        return None
    if check.unit == wanted or finding.value <= sd:
        return judge(limit, middle, high - middle, carrier)
    return judge(limit, middle, (high - low) / 2.0, carrier)


def in_words(judgement: Judgement) -> str:
    """Return a judgement as a sentence, with the source of the limit and how well it was read."""
    limit, unit = judgement.limit, judgement.unit
    bound = f"{shown(limit.value)} {limit.unit}"
    source = f"{limit.source}, {READ[limit.read]}"
    about = f"the {bound} limit ({source}{_condition(limit)})"
    value = f"{shown(float(f'{judgement.value:.4g}'))} {unit}"
    if judgement.verdict != "cannot-tell":
        return f"{value}: {judgement.verdict} {about}"
    needed = f"±{three(judgement.needed)} {unit} would tell"
    if judgement.needed == 0.0:
        needed = "it stands on the limit, and no instrument would tell"
    good = f"the instrument is good to ±{three(judgement.guard)} {unit}"
    return f"{value}: cannot tell whether it keeps {about}: {good}, {needed}"


def _condition(limit: LimitText) -> str:
    return f"; {limit.condition}" if limit.condition else ""


def _turned(value: float, check: CheckText, unit: str) -> float | None:
    """Return a value of a check in the unit of its limit, across 50 ohm where that is needed."""
    given, wanted = unit_of(check.unit or ""), unit_of(unit)
    return convert(value, given, wanted) if given and wanted else None
