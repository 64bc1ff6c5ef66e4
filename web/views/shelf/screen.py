"""The shelf: every case kept in this browser, to be found, opened, changed, saved, deleted."""

from collections.abc import Mapping, Sequence
from typing import Any
from xml.etree.ElementTree import Element

from web.shelf_records import STATUSES
from web.views.frame import file_picker, heading, steps
from web.views.markup import button, h, shows
from web.views.shelf.row import bin_row, case_row
from web.views.state import Shown

LASTING = {
    True: "This browser has promised to keep them.",
    False: "This browser has not promised to keep them: it may clear them away when space is "
    "short, so save them as a file now and then.",
    None: "This browser does not say whether it will keep them, so save them as a file now and "
    "then.",
}


def shelf_screen(shown: Shown, titles: Mapping[str, str], has_case: bool) -> list[Element | None]:
    """Return the shelf; `titles` are those of the kinds of set, by id."""
    cases = [each for each in shown.kept if not each.get("deleted")]
    gone = [each for each in shown.kept if each.get("deleted")]
    listed = [each for each in cases if shown.status in ("", each.get("status"))]
    return [
        steps("shelf") if has_case else None,
        heading("Cases kept in this browser"),
        h("p", {"class": "lead"}, _told(cases, shown.is_lasting)),
        h("div", {"data-later": "shelf-told", "data-still": True, "id": "shelf-told"}),
        _search(shown, cases) if cases else None,
        h("ul", {"class": "cases"}, [case_row(each, shown, titles) for each in listed]),
        h("p", {"data-nothing": True, "hidden": bool(listed) or not cases}, _NOTHING),
        _bin(gone, titles),
        _files(bool(cases)),
        h("p", None, button("What our own cases show", _TO_COUNTS)),
        None if has_case else h("p", None, _back()),
    ]


_TO_COUNTS = {"id": "to-counts", **shows("title", screen="counts", family=None)}
_NOTHING = "No case has all these words. Use fewer, or look at another status."


def _told(cases: Sequence[Mapping[str, Any]], is_lasting: bool | None) -> str:
    if not cases:
        return "No case is kept here yet. Begin one, or open a file with cases."
    number = "One case is" if len(cases) == 1 else f"{len(cases)} cases are"
    return f"{number} kept here, and nowhere else. {LASTING[is_lasting]}"


def _search(shown: Shown, cases: Sequence[Mapping[str, Any]]) -> Element:
    """Return the field for words and the choice of a status, each with its number of cases."""
    field = {
        "type": "search",
        "id": "shelf-filter",
        "data-filter": "shelf",
        "value": shown.filter,
        "autocomplete": "off",
        "placeholder": "owner, complaint, cause",
    }
    return h(
        "div",
        {"class": "search", "role": "search"},
        h("label", {"for": "shelf-filter"}, "Find a case by words in it "),
        h("input", field),
        h(
            "p",
            {"class": "row", "role": "group", "aria-label": "Status"},
            [_status(name, shown, cases) for name in ("", *STATUSES)],
        ),
    )


def _status(name: str, shown: Shown, cases: Sequence[Mapping[str, Any]]) -> Element | None:
    """Return the button that shows the cases of one status; none where there is no such case."""
    number = sum(1 for each in cases if name in ("", each.get("status")))
    if not number and name != shown.status:
        return None
    name_of_button = f"status-{name or 'all'}"
    attributes = {
        "id": name_of_button,
        "aria-pressed": "true" if name == shown.status else "false",
        **shows(name_of_button, status=name, editing=""),
    }
    return button(f"{STATUSES.get(name, 'All')} {number}", attributes)


def _bin(gone: Sequence[Mapping[str, Any]], titles: Mapping[str, str]) -> Element | None:
    if not gone:
        return None
    return h(
        "details",
        {"class": "kept", "id": "bin"},
        h("summary", None, f"Deleted: {len(gone)}. They can still be brought back"),
        h("ul", {"class": "rows"}, [bin_row(each, titles) for each in gone]),
    )


def _files(has_cases: bool) -> Element:
    """Return the ways out to a file and in from one."""
    everything = {"data-act": "shelf", "data-do": "save-all", "disabled": not has_cases}
    return h(
        "section",
        {"class": "kept"},
        h("h2", None, "Files"),
        h(
            "p",
            {"class": "row"},
            button("Save all cases as a file", everything),
            file_picker("shelf-picker", "Open files with cases", ".json,application/json", True),
        ),
        h("p", {"class": "hint"}, _ABOUT_FILES),
    )


_ABOUT_FILES = (
    "A case that is here already in another state becomes a second case beside it; nothing kept "
    "here is overwritten."
)


def _back() -> Element:
    return button("Back to the sets", shows("title", screen="home"))
