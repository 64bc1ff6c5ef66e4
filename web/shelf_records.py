"""The record of a case as a file brings it: what it must hold, and every problem with one."""

from collections.abc import Iterator
from typing import Any

from engine.errors import Problem, suggest
from web.replaying import FORMAT as LOG_FORMAT
from web.replaying import is_replayable
from web.views.state import OWN

RECORD_FORMAT = 2  # 1 had log and undone only
STATUSES = {
    "open": "Open",
    "waiting": "Waiting for the owner",
    "part": "Waiting for a part",
    "bench": "On the bench",
    "closed": "Closed",
}
HOW_CLOSED = ("found", "nothing-wrong", "unknown")
TEXTS = ("title", "owner", "next", "notes", "opened", "changed", "deleted")
Found = tuple[str, str, str, str]  # path below the record, found, expected, remedy

_DAMAGED = "Save the case as a file once more where it is kept."


def problems_of(file: str, path: str, record: Any, families: frozenset[str]) -> list[Problem]:
    """Return everything that keeps a record from being taken, all at once."""
    if not isinstance(record, dict):
        return [Problem(file, 1, path, type(record).__name__, "a case", _DAMAGED)]
    number = record.get("format", 1)
    if not isinstance(number, int) or number > RECORD_FORMAT:
        remedy = "A newer version of this page wrote this case: update the page first."
        wanted = f"at most {RECORD_FORMAT}"
        return [Problem(file, 1, f"{path}.format", f"{number}", wanted, remedy)]
    found = [*_about_itself(record), *_about_log(record, families), *_about_closing(record)]
    return [Problem(file, 1, f"{path}.{place}", *rest) for place, *rest in found]


def _about_itself(record: dict[str, Any]) -> Iterator[Found]:
    """Yield what is wrong with what people wrote about the case."""
    if not isinstance(record.get("id"), str) or not record["id"]:
        yield "id", _shown(record.get("id")), "a text that stands for the case", _DAMAGED
    for name in TEXTS:
        if not isinstance(record.get(name, ""), str):
            yield name, _shown(record[name]), "a text", _DAMAGED
    status = record.get("status", "open")
    if status not in STATUSES:
        yield (
            "status",
            _shown(status),
            "one of " + ", ".join(STATUSES),
            suggest(f"{status}", STATUSES),
        )


def _about_log(record: dict[str, Any], families: frozenset[str]) -> Iterator[Found]:
    """Yield what is wrong with what was entered."""
    log = record.get("log")
    if not isinstance(log, dict):
        yield "log", _shown(log), "what was entered", _DAMAGED
        return
    if log.get("format") != LOG_FORMAT:
        newer = "Update the page, if a newer version wrote it."
        yield "log.format", _shown(log.get("format")), f"{LOG_FORMAT}", newer
    family = log.get("family")
    if not isinstance(family, str) or not (family in families or family.startswith(OWN)):
        yield "log.family", _shown(family), "a kind of set", suggest(f"{family}", families)
    for place, inputs in (("log.inputs", log.get("inputs")), ("undone", record.get("undone", []))):
        if not is_replayable(inputs):
            yield place, "entries that cannot be read", "entries of a case", _DAMAGED


def _about_closing(record: dict[str, Any]) -> Iterator[Found]:
    """Yield what is wrong with how the case ended."""
    closed = record.get("closed")
    if closed is None:
        return
    if not isinstance(closed, dict) or closed.get("how") not in HOW_CLOSED:
        yield "closed.how", _shown(closed), "one of " + ", ".join(HOW_CLOSED), _DAMAGED
        return
    causes = closed.get("causes")
    if not isinstance(causes, list) or not all(isinstance(each, str) for each in causes):
        yield "closed.causes", _shown(causes), "a list of causes", _DAMAGED


def _shown(value: Any) -> str:
    """Return a value for a message, cut short."""
    return "nothing" if value is None else repr(value)[:60]
