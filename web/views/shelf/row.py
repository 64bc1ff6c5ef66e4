"""One case on the shelf: what is known of it, and what can be done with it."""

from collections.abc import Mapping, Sequence
from typing import Any
from xml.etree.ElementTree import Element

from web.history import earlier_cases
from web.links import case_code
from web.shelf_records import RECORD_FORMAT, STATUSES
from web.views.here_before import lines
from web.views.markup import button, h, shows
from web.views.shelf.form import form
from web.views.state import OWN, Shown

Record = Mapping[str, Any]
UNSEEN = "Being worked out."
NEWER = (
    "A newer version of this page wrote this case. It is kept untouched: update the page, then "
    "open it."
)


def case_row(record: Record, shown: Shown, titles: Mapping[str, str]) -> Element:
    """Return a case in the list, or the form to change what is written about it."""
    name = str(record["id"])
    if _is_newer(record):
        title = str(record.get("title") or "A case of a newer version")
        inside = h("div", None, h("h2", None, title), h("p", {"class": "conflict"}, NEWER))
    elif shown.editing == name:
        inside = h("div", None, form(record))
    else:
        acts = _acts(name, title_of(record, titles), record)
        earlier = earlier_cases(record, _family(record), shown.kept)
        inside = h("div", None, _told(record, titles, lines(earlier, {})), acts)
    words = " ".join(_words(record, titles)).lower()
    return h("li", {"class": "card case", "id": f"case-{name}", "data-words": words}, inside)


def title_of(record: Record, titles: Mapping[str, str]) -> str:
    """Return what a case is called: its title, or its kind of set and when it was opened."""
    return str(record.get("title") or f"{_set(record, titles)}, {_when(record, 'opened')}")


def _family(record: Record) -> str:
    return str((record.get("log") or {}).get("family", ""))


def _set(record: Record, titles: Mapping[str, str]) -> str:
    family = _family(record)
    if family.startswith(OWN):
        known = family.removeprefix(OWN)
        return f"{titles.get(known, known)} (your own knowledge)"
    return titles.get(family, f"{family}, a set this version does not know")


def _is_newer(record: Record) -> bool:
    return int(record.get("format", 1)) > RECORD_FORMAT


def _when(record: Record, what: str) -> str:
    return str(record.get(what, ""))[:16].replace("T", " ")


def _told(record: Record, titles: Mapping[str, str], before: Sequence[str]) -> list[Element | None]:
    """Return everything the list tells of a case, what is empty left out; `before` is its past."""
    line = record.get("line") or {}
    is_open = record.get("status") != "closed"
    status = STATUSES.get(str(record.get("status")), str(record.get("status")))
    about = [
        f"case {_code(record)}" if _was_asked(record) else "",
        record.get("owner"),
        _set(record, titles) if record.get("title") else "",
        _times(record),
    ]
    rows = {
        "Complaint": line.get("complaint"),
        "Now": line.get("problem") or line.get("now", UNSEEN),
        "Put right": line.get("mended"),
        "Next step": record.get("next") or (line.get("next") if is_open else ""),
        "Confirmed": _confirmed(record),
        "Here before": "\n".join(before),
        "Notes": record.get("notes"),
    }
    told = [(name, str(words)) for name, words in rows.items() if words]
    return [
        h("h2", None, title_of(record, titles)),
        h(
            "p",
            {"class": "case-about"},
            h("b", {"class": f"status {record.get('status')}"}, status),
            *[f" · {each}" for each in about if each],
        ),
        h("dl", {"class": "how"}, [pair for each in told for pair in _pair(*each)]),
    ]


def _pair(name: str, words: str) -> tuple[Element, Element]:
    return h("dt", None, name), h("dd", None, words)


def _was_asked(record: Record) -> bool:
    """Say whether a letter went to the owner, who was told the code of the case in it."""
    inputs = (record.get("log") or {}).get("inputs", ())
    return any(each.get("do") == "asked" for each in inputs)


def _code(record: Record) -> str:
    return case_code(str(record["id"]))


def _times(record: Record) -> str:
    number = len((record.get("log") or {}).get("inputs", ()))
    entries = f"{number} {'entry' if number == 1 else 'entries'}"
    return f"opened {_when(record, 'opened')}, changed {_when(record, 'changed')}, {entries}"


def _confirmed(record: Record) -> str:
    """Return what a closed case ended in, in words."""
    closed = record.get("closed") or {}
    if record.get("status") != "closed":
        return ""
    if closed.get("how") == "nothing-wrong":
        return "Nothing was wrong with the set."
    names = [str(each) for each in closed.get("titles") or closed.get("causes") or ()]
    return "; ".join(names) or "Nothing was confirmed."


def _acts(name: str, title: str, record: Record) -> Element:
    """Return the buttons of a case; each says for its reader which case it is about."""
    ends = "What it was" if record.get("status") == "closed" else "Close it"
    return h(
        "p",
        {"class": "row"},
        _act("Open", "open", name, title, main=True),
        button(
            "Change",
            {
                "id": f"edit-{name}",
                "aria-label": f"Change what is written about {title}",
                **shows("edit-title", editing=name),
            },
        ),
        _act(ends, "close", name, title),
        _act("Save as a file", "save-one", name, title),
        _act("Delete", "delete", name, title),
    )


def _act(words: str, do: str, name: str, title: str, main: bool = False) -> Element:
    attributes = {"data-act": "shelf", "data-do": do, "data-id": name}
    label = {"aria-label": f"{words}: {title}", "class": "main" if main else None}
    return button(words, {**attributes, **label})


def bin_row(record: Record, titles: Mapping[str, str]) -> Element:
    """Return a deleted case, to be brought back or deleted for good."""
    name, title = str(record["id"]), title_of(record, titles)
    return h(
        "li",
        {"id": f"gone-{name}"},
        h("span", None, h("b", None, title), f" · deleted {_when(record, 'deleted')}"),
        _act("Bring back", "bring-back", name, title),
        _act("Delete for good", "drop", name, title),
    )


def _words(record: Record, titles: Mapping[str, str]) -> list[str]:
    """Return all that a case can be found by."""
    line = record.get("line") or {}
    inputs = (record.get("log") or {}).get("inputs", ())
    owners = [str(each.get("text", "")) for each in inputs if each.get("do") in ("message", "note")]
    fields = [record.get(name) for name in ("title", "owner", "next", "notes")]
    texts = [*fields, *(line.get(name) for name in ("complaint", "now", "mended")), *owners]
    return [
        title_of(record, titles),
        _set(record, titles),
        _confirmed(record),
        _code(record) if _was_asked(record) else "",
        *map(str, filter(None, texts)),
    ]
