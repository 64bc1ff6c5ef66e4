"""The form with what people write about a case."""

from collections.abc import Mapping
from typing import Any
from xml.etree.ElementTree import Element

from web.shelf_records import STATUSES
from web.views.markup import button, h, shows

Record = Mapping[str, Any]


def form(record: Record) -> Element:
    """Return the form; what it sends goes into the record, not into the findings."""
    name = str(record["id"])
    return h(
        "form",
        {"class": "about-case", "data-act": "shelf", "data-do": "write", "data-id": name},
        h("h2", None, "What is written about this case"),
        _line("title", "Title, such as the owner's name for the set", record),
        _line("owner", "Owner, or the reference of the help desk", record),
        _statuses(str(record.get("status", "open"))),
        _line("next", "Next step", record),
        h("label", {"for": "edit-notes"}, "Notes"),
        h(
            "textarea",
            {"id": "edit-notes", "name": "notes", "rows": "4"},
            str(record.get("notes", "")),
        ),
        h(
            "p",
            {"class": "row"},
            h("button", {"type": "submit", "class": "main"}, "Keep it"),
            button("Leave it as it was", shows(f"edit-{name}", editing="")),
        ),
    )


def _line(field: str, words: str, record: Record) -> Element:
    attributes = {
        "type": "text",
        "id": f"edit-{field}",
        "name": field,
        "value": str(record.get(field, "")),
        "autocomplete": "off",
    }
    return h("p", None, h("label", {"for": f"edit-{field}"}, words), h("input", attributes))


def _statuses(now: str) -> Element:
    options = [
        h("option", {"value": name, "selected": name == now}, words)
        for name, words in STATUSES.items()
    ]
    return h(
        "p",
        None,
        h("label", {"for": "edit-status"}, "Status"),
        h("select", {"id": "edit-status", "name": "status"}, options),
    )
