"""A proof in words: the verdict, why, what is missing, and what every figure rests on."""

from collections.abc import Iterator

from engine.diagnosis.judging import READ
from engine.proving.holding import Held
from engine.proving.sheet import Bound, Point, ProofSheet
from engine.proving.verdict import Proved, Row
from engine.radio.figures import shown, three

VERDICTS = {
    "right": "Proved: every figure held here is kept, with the instruments' errors allowed for.",
    "poor": "Keeps its rules as far as was measured, but it is not as good as it should be.",
    "not-shown": "Not proved. The set may not be called right yet.",
    "fails": "Not right. It breaks its rules: not to be put on the air until it is set right.",
}
ROWS = {
    "pass": "pass",
    "fail": "FAIL",
    "cannot-tell": "cannot tell",
    "poor": "poor",
    "missing": "not measured",
}
RULE = (
    "Decision rule: guarded acceptance and rejection, guard band one expanded uncertainty, k = 2 "
    "(JCGM 106:2012, from memory). A limit counts as kept, or as broken, only when the reading is "
    "farther from it than the instrument's error. Usual figures are no limits and have no guard "
    "band."
)
DEFER = (
    "Adjusting a transmitter is for those whom the local rules allow to do it. The only aim is to "
    "bring the set back within its rules."
)
SIDES = {"at-most": "at most", "at-least": "at least"}
LIMIT_OF_TOLERANCE = 3.0**0.5 / 2.0  # a tolerance +-a is an expanded uncertainty of 2 a / sqrt(3)


def where_words(point: Point) -> str:
    """Return the title of a point, with its channel."""
    return f"{point.title}, channel {point.channel}" if point.unit else point.title


def bound_words(bound: Bound) -> str:
    """Return a figure with where it stands: `at most 4 W (47 CFR 95.967(a))`."""
    limit = bound.limit
    name = limit.rules if bound.is_guide else limit.source
    against = " below the carrier" if bound.against and limit.unit == "dB" else ""
    return f"{SIDES[limit.direction]} {shown(limit.value)} {limit.unit}{against} ({name})"


def bounds_words(point: Point, rules: str) -> str:
    """Return every figure a point is held to under a rule set."""
    return "; ".join(bound_words(each) for each in point.bounds[rules]) or "yes"


def held_words(held: Held) -> str:
    """Return what a reading says of one bound, with what would tell where it cannot."""
    judgement, bound = held.judgement, held.bound
    value = f"{_four(judgement.value)} {judgement.unit}"
    about = bound_words(bound)
    if bound.is_guide:
        return f"{value}, usual is {about}" + ("" if held.is_kept else f": {bound.says}")
    told = f"{value} ±{three(judgement.guard)} {judgement.unit}"
    if judgement.verdict == "within":
        return f"{told} keeps {about}"
    if judgement.verdict == "beyond":
        return f"{told} is beyond {about}"
    chance = f"{100.0 * held.p_kept:.0f} in 100 that it is kept"
    return f"{told} against {about}: {chance}; {needed_words(held)}"


def needed_words(held: Held) -> str:
    """Return what accuracy would tell, as an error band and as an instrument's tolerance."""
    judgement = held.judgement
    if judgement.needed == 0.0:
        return "it stands on the limit, and no instrument would tell"
    band = f"±{three(judgement.needed)} {judgement.unit}"
    tolerance = LIMIT_OF_TOLERANCE * judgement.needed
    sizes = {
        "kHz": f"{three(tolerance)} kHz",
        "W": f"{three(100.0 * tolerance / abs(judgement.value or 1.0))} % of the reading",
    }
    size = sizes.get(judgement.unit, f"{three(tolerance)} {judgement.unit}")
    return f"an error of {band} or less would tell, an instrument good to {size}"


def reasons(proved: Proved) -> Iterator[str]:
    """Yield why the verdict is what it is, worst first, then what was not measured."""
    yield from findings_against(proved)
    for row in proved.missing:
        lacks = "" if row.reading is None else f" (needs {', '.join(row.lacks)})"
        yield f"Not measured: {where_words(row.point)}{lacks}"


def findings_against(proved: Proved) -> Iterator[str]:
    """Yield what was read that speaks against the set, worst first."""
    for verdict, head in (("fail", "Fails"), ("cannot-tell", "Cannot tell"), ("poor", "Poor")):
        for row in proved.rows:
            if row.verdict == verdict:
                yield f"{head}: {where_words(row.point)}: {row_words(row)}"


def row_words(row: Row) -> str:
    """Return what was read at a point and what that says."""
    if row.reading is None:
        return "not measured"
    if row.reading.is_seen is not None:
        return f"{row.point.asks} {row.reading.shown}"
    told = [held_words(each) for each in row.held]
    if row.verdict in ("fail", "cannot-tell"):
        told = [held_words(each) for each in row.held if not _is_kept(each)] or told
    return "; ".join(told)


def caveats(proved: Proved) -> Iterator[str]:
    """Yield what the verdict does not say: figures from memory, limits nobody looked at."""
    marks = {
        f"{each.bound.limit.id} ({READ[each.bound.limit.read]}"
        f"{'; ' if each.bound.limit.condition else ''}{each.bound.limit.condition})": None
        for each in proved.doubtful
    }
    if marks:
        yield f"Not read in the document itself, look it up before it decides: {', '.join(marks)}."
    if proved.rules.not_held:
        yield f"Limits of these rules that were not looked at: {', '.join(proved.rules.not_held)}."
    usual = {
        proved.sheet.instruments[row.reading.instrument]: row.reading.accuracy
        for row in proved.rows
        if row.reading and row.reading.is_usual
    }
    if usual:
        told = ", ".join(f"{name} ±{size}" for name, size in usual.items())
        yield f"Accuracy not told, taken as usual (estimate, two standard deviations): {told}."


def rules_words(proved: Proved) -> str:
    """Return the rule set with where and when it holds."""
    rules = proved.rules
    known = "; ".join(part for part in (rules.where, rules.when) if part)
    return f"{rules.title} ({rules.id})" + (f": {known}" if known else "")


def cautions_first(sheet: ProofSheet) -> Iterator[str]:
    """Yield every caution of the steps, to be read before the first."""
    yield from (f"{each.title}: {each.text}" for each in sheet.cautions.values())


def _is_kept(held: Held) -> bool:
    return held.bound.is_guide or held.judgement.verdict == "within"


def _four(value: float) -> str:
    return shown(float(f"{value:.4g}"))
