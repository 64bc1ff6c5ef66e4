"""A part of the record: one set of words, put on paper or written as plain text."""

from dataclasses import dataclass
from xml.etree.ElementTree import Element

from web.views.markup import h

SHORT = 18  # letters
BRIEF = 11  # on a narrow screen as well, such as `under 0.1 %`


@dataclass(frozen=True, slots=True)
class Row:
    """A line of a table: its head, its cells, and a hint under the head that only paper has."""

    head: str
    cells: tuple[str, ...]
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A heading, a table and lines; `kind` names it for the looks.

    `is_for_paper` parts are left out of the plain text.
    """

    title: str
    lines: tuple[str, ...] = ()
    heads: tuple[str, ...] = ()
    rows: tuple[Row, ...] = ()
    kind: str = ""
    is_for_paper: bool = False


def on_paper(part: Part) -> Element:
    """Return a part for paper and screen."""
    return h(
        "section",
        {"class": f"part part-{part.kind}"},
        h("h3", None, part.title),
        _table(part) if part.rows else None,
        h("ul", None, [h("li", None, line) for line in part.lines]) if part.lines else None,
    )


def _table(part: Part) -> Element:
    """Return the table in a box that scrolls by itself on a narrow screen."""
    heads = [h("th", {"scope": "col", "class": _size(head)}, head) for head in part.heads]
    table = h(
        "table",
        {"class": "found"},
        h("thead", None, h("tr", None, heads)) if heads else None,
        h("tbody", None, [_row(row) for row in part.rows]),
    )
    box = {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": part.title}
    return h("div", box, table)


def _row(row: Row) -> Element:
    hint = h("small", None, f" {row.hint}") if row.hint else None
    head = h("th", {"scope": "row"}, h("b", None, row.head), hint)
    return h("tr", None, head, [h("td", {"class": _size(cell)}, cell) for cell in row.cells])


def _size(cell: str) -> str | None:
    """Return the class of a cell too short to be broken into lines."""
    if len(cell) <= BRIEF:
        return "short brief"
    return "short" if len(cell) <= SHORT else None


def as_text(part: Part) -> list[str]:
    """Return a part as lines of plain text, an empty one before it; none when it is for paper."""
    if part.is_for_paper:
        return []
    heads = [f"({' | '.join(part.heads)})"] if part.heads else []
    rows = [f"- {row.head}: {' | '.join(cell or '-' for cell in row.cells)}" for row in part.rows]
    title = part.title if ":" in part.title else f"{part.title}:"
    return ["", title, *heads, *rows, *[f"- {line}" for line in part.lines]]
