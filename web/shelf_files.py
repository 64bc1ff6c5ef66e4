"""Reads a file with cases: what can be taken, what is here already, and every problem with it.

A file holds `{"dryjoint": "cases", "format": 1, "cases": [...]}`; one with a bare log is a case
as well. Cases that are sound are taken though others in the file are not.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from engine.errors import Problem
from web.replaying import FORMAT as LOG_FORMAT
from web.shelf_records import RECORD_FORMAT, problems_of

FILE_FORMAT = 1
# What makes two records the same case in the same state; the rest says when it was looked at.
CONTENT = ("log", "undone", "title", "owner", "status", "next", "notes", "closed")
Record = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class FileRead:
    """What a file holds: records to take, how many of them as second cases, how many are here."""

    take: list[Record] = field(default_factory=list)
    second: int = 0
    same: int = 0
    problems: tuple[Problem, ...] = ()


def read_cases(name: str, text: str, here: Sequence[Record], families: frozenset[str]) -> FileRead:
    """Return what to take of the file `name`.

    A case that is here in another state is taken beside it, without an id, for it to get a new one.

    Args:
        name: of the file, to be told with its problems.
        text: its content.
        here: the records kept in this browser.
        families: the kinds of set this page knows.
    """
    records, problems = _records(name, text)
    known = {str(each["id"]): _content(each) for each in here}
    take: list[Record] = []
    second = same = 0
    for number, record in enumerate(records):
        found = problems_of(name, f"cases.{number}", record, families)
        problems += found
        if found:
            continue
        before = known.get(record["id"])
        same += before == _content(record)
        second += before not in (None, _content(record))
        if before is None:
            take.append(record)
        elif before != _content(record):
            take.append({**record, "id": None})
        known.setdefault(record["id"], _content(record))
    return FileRead(take, second, same, tuple(problems))


def _records(name: str, text: str) -> tuple[list[Any], list[Problem]]:
    """Return the records of a file as they stand in it, or why there are none."""
    try:
        data = json.loads(text)
    except ValueError as error:
        line, found = getattr(error, "lineno", 1), getattr(error, "msg", str(error))
        wanted = "a file with cases saved by this page"
        return [], [Problem(name, line, "text", found, wanted, _AGAIN)]
    if not isinstance(data, dict) or not ({"cases", "inputs"} & set(data)):
        return [], [Problem(name, 1, "file", "no cases", "a file with cases", _AGAIN)]
    newest = LOG_FORMAT if "inputs" in data else FILE_FORMAT
    number = data.get("format")
    if not isinstance(number, int) or not 1 <= number <= newest:
        remedy = "A newer version of this page wrote it: update the page, then open it again."
        return [], [Problem(name, 1, "format", f"{number}", f"at most {newest}", remedy)]
    if "inputs" in data:
        return [_of_log(data)], []
    if not isinstance(data["cases"], list):
        return [], [Problem(name, 1, "cases", "no list", "a list of cases", _AGAIN)]
    return data["cases"], []


_AGAIN = "Save the cases as a file once more where they are kept, and open that one."


def _of_log(log: Mapping[str, Any]) -> dict[str, Any]:
    """Return the record of a bare log; the same log always has the same id."""
    mark = sha256(json.dumps(log, sort_keys=True).encode()).hexdigest()[:16]
    inputs = log["inputs"] if isinstance(log["inputs"], list) else []
    times = [str(each["at"]) for each in inputs if isinstance(each, dict) and each.get("at")]
    changed = times[-1] if times else ""
    return {"id": f"log-{mark}", "format": RECORD_FORMAT, "log": log, "changed": changed}


def _content(record: Record) -> str:
    """Return what two records of the same case in the same state have in common."""
    whole = {name: record.get(name) or None for name in CONTENT}
    whole["status"] = record.get("status", "open")
    return json.dumps(whole, sort_keys=True)
