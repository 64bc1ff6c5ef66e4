"""The proof in the record of a case: on paper, and as lines of plain text."""

from collections.abc import Iterator
from xml.etree.ElementTree import Element

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
from web.views.markup import h
from web.views.proof_state import Proving, badge_words, counted

HEAD = ("Point", "Before the work", "Now", "Verdict", "Held to")


def proof_on_paper(proving: Proving) -> Element:
    """Return the verdict with its reasons, every point before and after, what it rests on."""
    proved = proving.proof.now
    why = [h("li", None, f"{words}.") for words in _why(proved)]
    rows = [_row(proving, *pair) for pair in _pairs(proving)]
    return h(
        "div",
        {"class": "proof"},
        h("h3", None, "Proof"),
        h("p", None, f"Held to {rules_words(proved)}. {counted(proved)}."),
        h("p", None, h("b", None, VERDICTS[proved.verdict])),
        h("ul", None, why) if why else None,
        h(
            "div",
            {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": "Points"},
            h(
                "table",
                None,
                h("thead", None, h("tr", None, [h("th", {"scope": "col"}, each) for each in HEAD])),
                h("tbody", None, rows),
            ),
        ),
        [h("p", {"class": "hint"}, words) for words in (*caveats(proved), RULE, DEFER)],
    )


def proof_lines(proving: Proving) -> list[str]:
    """Return the proof as lines of plain text."""
    proved = proving.proof.now
    rows = [_line(proving, row, before) for row, before in _pairs(proving)]
    return [
        f"Proof, held to {rules_words(proved)}:",
        VERDICTS[proved.verdict],
        *[f"- {words}" for words in _why(proved)],
        "",
        "Points:",
        *[line for line in rows if line],
        "",
        *caveats(proved),
        RULE,
        DEFER,
    ]


def _why(proved: Proved) -> Iterator[str]:
    """Yield what speaks against the set, and in one line what was not measured."""
    yield from findings_against(proved)
    missing = [where_words(row.point) for row in proved.missing]
    if missing:
        yield f"Not measured: {'; '.join(missing)}"


def _pairs(proving: Proving) -> Iterator[tuple[Row, Row]]:
    return zip(proving.proof.now.rows, proving.proof.before.rows, strict=True)


def _row(proving: Proving, row: Row, before: Row) -> Element:
    rules = proving.proof.now.rules.id
    read = h("td", None, _read(row), h("br"), h("small", None, _with(proving, row)))
    cells = (h("td", None, _read(before)), read, h("td", None, badge_words(row)))
    return h(
        "tr",
        None,
        h("th", {"scope": "row"}, where_words(row.point)),
        *cells,
        h("td", None, bounds_words(row.point, rules)),
    )


def _line(proving: Proving, row: Row, before: Row) -> str:
    """Return a point in one line, empty where nothing was read."""
    if row.reading is None and before.reading is None:
        return ""
    was = f", before the work {_read(before)}" if before.reading else ""
    told = _with(proving, row)
    return (
        f"- {where_words(row.point)}: {_read(row)}{f' ({told})' if told else ''}{was}: "
        f"{badge_words(row)}"
    )


def _read(row: Row) -> str:
    return row.reading.said if row.reading else "–"


def _with(proving: Proving, row: Row) -> str:
    """Return the instrument of a reading with its accuracy, and the time."""
    if row.reading is None:
        return ""
    typed = proving.log.now[row.point.id]
    parts = [typed.at[:16].replace("T", " ")]
    if row.reading.instrument:
        title = proving.sheet.instruments[row.reading.instrument]
        parts.insert(0, f"{title}, ±{row.reading.accuracy}")
    return ", ".join(part for part in parts if part)
