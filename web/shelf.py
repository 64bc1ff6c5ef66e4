"""Answers for the shelf of cases: the list, closing a case, files with cases.

Loaded by the worker as a part of its own; nothing that the page starts with may import it.
"""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.diagnosis.kinds import NOT_SURE
from web.answering import Fields, answered, catalogue, opened
from web.shelf_files import read_cases
from web.shelf_lines import line_of
from web.views.markup import html
from web.views.shelf import shelf_screen
from web.views.shelf_closing import closing_screen
from web.views.shelf_told import told_of_file
from web.views.state import Shown


def answer(request: str) -> str:
    """Return the answer to one request, or the problem with it."""
    return answered(VERBS, request)


def titles() -> dict[str, str]:
    """Return the title of every kind of set the page knows, by id."""
    known = {family.id: family.title for family in catalogue()[1]}
    return {**known, NOT_SURE: "A set whose kind was not known yet"}


def _show(args: Fields) -> Fields:
    """Return <main> of the shelf, or of closing the case at hand."""
    shown, log = Shown.read(args["view"]), args.get("log")
    screens: Sequence[Element | None]
    if shown.screen == "closing" and log:
        bench, _ = opened(log, whole=False)
        screens = closing_screen(bench, shown)
    else:
        screens = shelf_screen(shown, titles(), bool(log))
    return {"html": html(*screens), "status": "", "accepted": True}


def _line(args: Fields) -> Fields:
    """Return what the shelf shows of a case: the complaint, and what leads now."""
    bench, _ = opened(args["log"], whole=False)
    return {"line": line_of(bench)}


def _read(args: Fields) -> Fields:
    """Return the cases of a file that can be taken, and what to say of it."""
    read = read_cases(args["name"], args["text"], args["here"], frozenset(titles()))
    return {
        "take": read.take,
        "second": read.second,
        "same": read.same,
        "told": html(told_of_file(args["name"], read)),
    }


VERBS = {"show": _show, "shelf-line": _line, "shelf-read": _read}
