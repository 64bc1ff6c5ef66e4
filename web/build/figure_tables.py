"""Figures of stored runs as words and as tables."""

from collections.abc import Mapping, Sequence
from xml.etree.ElementTree import Element

from engine.assessing.runs import Run
from web.views.markup import h

Cells = Sequence[Sequence[str]]


def family_of(run: Run) -> str:
    """Return the id of the kind of set of a run."""
    return str(run["setting"]["family"])


def title_of(run: Run, families: Mapping[str, str]) -> str:
    """Return the title of the kind of set of a run; its id where there is none any more."""
    return families.get(family_of(run), family_of(run))


def figure_words(figure: Mapping[str, float], times: float) -> str:
    """Return a figure with its 95 % interval, multiplied first."""
    at, low, high = (times * figure[key] for key in ("at", "low", "high"))
    return f"{at:.0f} ({low:.0f} to {high:.0f})"


def figure_table(head: Sequence[str], rows: Cells) -> Element:
    """Return a table that scrolls by itself where it is wider than the page."""
    return h(
        "div",
        {"class": "wide", "tabindex": "0", "role": "region", "aria-label": "Table of figures"},
        h(
            "table",
            None,
            h("thead", None, h("tr", None, [h("th", {"scope": "col"}, one) for one in head])),
            h("tbody", None, [h("tr", None, [h("td", None, c) for c in row]) for row in rows]),
        ),
    )
