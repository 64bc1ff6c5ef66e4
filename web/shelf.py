"""Answers for the shelf of cases: the list, closing a case, files, our own counts.

Loaded by the worker as a part of its own; nothing that the page starts with may import it.
"""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.sharpening import EQUIVALENT_SETS
from web.answering import MODELS, Fields, answered, catalogue, opened
from web.shelf_files import read_cases
from web.shelf_lines import line_of
from web.views.counted import counted_note
from web.views.here_before import history_note
from web.views.markup import html
from web.views.shelf.closing import closing_screen
from web.views.shelf.counts import counts_screen, read_counts_of, rows_of
from web.views.shelf.screen import shelf_screen
from web.views.shelf.told import told_of_file
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
        notes = (counted_note(bench.model), history_note(bench))
        screens = [*notes, *closing_screen(bench, shown)]
    elif shown.screen == "counts":
        screens = counts_screen(shown, MODELS.get(shown.family or ""), titles(), bool(log))
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


def _counts(args: Fields) -> Fields:
    """Return the counts of one kind of set with both priors of every cause, for a file."""
    shown = Shown.read(args["view"])
    model = MODELS[str(shown.family)]
    counts = read_counts_of(shown.counts.get("now", {}), model)
    names = ("cause", "title", "times", "prior", "sharpened")
    rows = [dict(zip(names, row, strict=True)) for row in rows_of(model, counts)]
    return {"family": model.family.id, "sets": counts.sets, "worth": EQUIVALENT_SETS, "rows": rows}


VERBS = {"show": _show, "shelf-counts": _counts, "shelf-line": _line, "shelf-read": _read}
