"""The proof as a part of the record."""

from collections.abc import Iterator

from engine.proving.verdict import Proved, Row
from engine.proving.words import (
    DEFER,
    RULE,
    VERDICTS,
    bounds_words,
    caveats,
    findings_against,
    rules_words,
    where_words,
)
from web.views.part import Part
from web.views.part import Row as Line
from web.views.proof.state import Proving, badge_words, counted

HEADS = ("Point", "Before the work", "Now", "Verdict", "Held to")


def proof_part(proving: Proving) -> Part:
    """Return every point before and after, why the verdict is what it is, what it rests on."""
    proved = proving.proof.now
    rows = tuple(
        _line(proving, *pair)
        for pair in zip(proved.rows, proving.proof.before.rows, strict=True)
        if pair[0].reading or pair[1].reading
    )
    lines = (
        f"Held to {rules_words(proved)}. {counted(proved)}.",
        *(f"{words}." for words in _why(proved)),
        *caveats(proved),
        RULE,
        DEFER,
    )
    return Part(f"Proof: {VERDICTS[proved.verdict]}", lines, HEADS, rows, kind="proof")


def _why(proved: Proved) -> Iterator[str]:
    """Yield what speaks against the set, and in one line what was not measured."""
    yield from findings_against(proved)
    missing = [where_words(row.point) for row in proved.missing]
    if missing:
        yield f"Not measured: {'; '.join(missing)}"


def _line(proving: Proving, row: Row, before: Row) -> Line:
    rules = proving.proof.now.rules.id
    cells = (_read(before), _now(proving, row), badge_words(row), bounds_words(row.point, rules))
    return Line(where_words(row.point), cells)


def _read(row: Row) -> str:
    return row.reading.said if row.reading else "–"


def _now(proving: Proving, row: Row) -> str:
    """Return a reading with its instrument, the accuracy of that, and the time."""
    if row.reading is None:
        return "–"
    typed = proving.log.now[row.point.id]
    meter = row.reading.instrument
    with_it = f"{proving.sheet.instruments[meter]}, ±{row.reading.accuracy}" if meter else ""
    told = ", ".join(part for part in (with_it, typed.at[:16].replace("T", " ")) if part)
    return f"{row.reading.said} ({told})" if told else row.reading.said
