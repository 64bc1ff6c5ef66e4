"""Files with cases: what is taken of them, and every problem told at once."""

import json
from typing import Any

import pytest

from web.shelf_files import FileRead, read_cases

FAMILIES = frozenset({"beacon", "not-sure"})
LOG = {"format": 1, "family": "beacon", "inputs": [{"do": "note", "text": "Blue", "at": "2026-01"}]}
CASE = {"id": "a", "format": 2, "log": LOG, "undone": [], "title": "Blue set", "status": "open"}
AGAIN = "Save the cases as a file once more where they are kept, and open that one."
DAMAGED = "Save the case as a file once more where it is kept."
UPDATE = "A newer version of this page wrote it: update the page, then open it again."
CLOSED = "one of found, nothing-wrong, unknown"


def read(cases: Any, here: Any = ()) -> FileRead:
    """Return what is read of a file with these cases."""
    text = json.dumps({"dryjoint": "cases", "format": 1, "cases": cases})
    return read_cases("club.json", text, here, FAMILIES)


def told(found: FileRead) -> list[str]:
    """Return the problems as lines."""
    return [str(each) for each in found.problems]


def test_a_case_that_is_new_is_taken_as_it_is() -> None:
    """Fields that this version does not know come along."""
    case = {**CASE, "of-a-later-version": [1, 2]}
    assert read([case]) == FileRead(take=[case])


def test_a_case_that_is_here_is_not_taken_again() -> None:
    """When it was looked at, and what the list showed of it, make no difference."""
    here = {**CASE, "used": 7, "revision": 3, "line": {"now": "…"}, "notes": ""}
    assert read([CASE], [here]) == FileRead(same=1)


def test_a_case_in_another_state_is_taken_beside_the_one_here() -> None:
    """It loses its id, so that it overwrites nothing."""
    other = {**CASE, "title": "Red set"}
    assert read([other], [CASE]) == FileRead(take=[{**other, "id": None}], second=1)


def test_a_bare_log_is_a_case() -> None:
    """The same log is the same case, however often it is opened."""
    found = read_cases("one.json", json.dumps(LOG), [], FAMILIES)
    (case,) = found.take
    assert (case["log"], case["changed"], found.problems) == (LOG, "2026-01", ())
    assert read_cases("one.json", json.dumps(LOG), [case], FAMILIES) == FileRead(same=1)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        (
            '{"cases": [',
            "club.json:1: text: found Expecting value, expected a file with cases saved by this "
            f"page\n  {AGAIN}",
        ),
        ("[]", f"club.json:1: file: found no cases, expected a file with cases\n  {AGAIN}"),
        (
            '{"format": 2, "cases": []}',
            f"club.json:1: format: found 2, expected at most 1\n  {UPDATE}",
        ),
        (
            '{"format": 1, "cases": {}}',
            f"club.json:1: cases: found no list, expected a list of cases\n  {AGAIN}",
        ),
    ],
    ids=["cut-off", "other", "newer", "no-list"],
)
def test_a_file_that_is_none_of_ours_is_told(text: str, problem: str) -> None:
    """Nothing is taken, and the message says where, what, what was expected and what to do."""
    found = read_cases("club.json", text, [CASE], FAMILIES)
    assert (found.take, told(found)) == ([], [problem])


def test_all_problems_of_a_case_are_told_and_sound_ones_taken() -> None:
    """One damaged case keeps no other from being taken."""
    bad = {
        "id": "",
        "title": 5,
        "status": "opne",
        "log": {"format": 1, "family": "becon", "inputs": [{"do": "answer"}]},
        "closed": {"how": "sold", "causes": []},
    }
    newer = {"id": "n", "format": 3}
    found = read([bad, newer, "x", CASE])
    assert found.take == [CASE]
    assert told(found) == [
        f"club.json:1: cases.0.id: found '', expected a text that stands for the case\n  {DAMAGED}",
        f"club.json:1: cases.0.title: found 5, expected a text\n  {DAMAGED}",
        "club.json:1: cases.0.status: found 'opne', expected one of open, waiting, part, bench, "
        "closed\n  Did you mean 'open'?",
        "club.json:1: cases.0.log.family: found 'becon', expected a kind of set\n"
        "  Did you mean 'beacon'?",
        "club.json:1: cases.0.log.inputs: found entries that cannot be read, expected entries of a "
        f"case\n  {DAMAGED}",
        f"club.json:1: cases.0.closed.how: found {bad['closed']!r}, expected {CLOSED}\n  {DAMAGED}",
        "club.json:1: cases.1.format: found 3, expected at most 2\n"
        "  A newer version of this page wrote this case: update the page first.",
        f"club.json:1: cases.2: found str, expected a case\n  {DAMAGED}",
    ]
