"""Answers for the help desk: what to ask an owner, what came back, links that carry a case.

Loaded by the worker as a part of its own, with the library that draws QR codes; nothing that the
page starts with may import it.
"""

from collections.abc import Sequence
from typing import Any
from xml.etree.ElementTree import Element

from engine.diagnosis.kinds import NOT_SURE
from web.answering import MODELS, Fields, RefusedError, answered, catalogue, opened
from web.links import Link, LinkError, case_code, link_in
from web.replaying import replay
from web.views.counted import counted_note
from web.views.desk.link import link_screen
from web.views.desk.screen import desk_screen
from web.views.desk.sheet import sheet_screen
from web.views.markup import html
from web.views.state import OWN, Shown


def answer(request: str) -> str:
    """Return the answer to one request, or the problem with it."""
    return answered(VERBS, request)


def _show(args: Fields) -> Fields:
    """Return <main> of the help desk, of the owner's sheet, or of a link that was opened."""
    shown, log = Shown.read(args["view"]), args.get("log")
    screens: Sequence[Element | None]
    if shown.screen == "desk":
        bench, accepted = opened(log or {})
        assert accepted, "an input that does not fit is set aside"
        screens = [counted_note(bench.model), *desk_screen(bench, shown, log or {})]
    else:
        link = read(shown.link)
        model = MODELS[link.family]
        if shown.screen == "sheet":
            screens = sheet_screen(model, link, shown)
        else:
            screens = link_screen(model, link, replay(model, list(link.inputs)))
    return {"html": html(*screens), "status": "", "accepted": True}


def read(text: str) -> Link:
    """Return what a link carries.

    Raises:
        RefusedError: there is none, or it is damaged, newer, or about a set not known here.
    """
    try:
        link = link_in(text)
    except LinkError as problem:
        raise RefusedError(str(problem)) from None
    if link is None:
        raise RefusedError("There is no case in this link.")
    known = [NOT_SURE, *(family.id for family in catalogue()[1])]
    if link.family.startswith(OWN):
        raise RefusedError(
            "This case rests on knowledge somebody wrote and compiled in another browser. Ask for "
            "their files, and compile them under “Try knowledge of your own”."
        )
    if link.family not in known:
        raise RefusedError(f"This page has no knowledge of the set '{link.family}'.")
    return link


def _opened_link(args: Fields) -> Fields:
    """Return the view of a link, and which of the kept cases, by id, it is an answer to.

    Questions without answers are a sheet to fill in; all else is shown before it is taken up.
    """
    link = read(args["text"])
    is_sheet = bool(link.asked) and not link.answers
    view: dict[str, Any] = {"screen": "sheet" if is_sheet else "link", "family": link.family}
    ids = args["ids"] if link.answers else []
    case_id = next((each for each in ids if case_code(each) == link.code), None)
    return {"view": {**view, "link": args["text"]}, "case": case_id}


def _log_of_link(args: Fields) -> Fields:
    """Return the case in a link, with the answers it brings."""
    link = read(args["text"])
    answers = [list(each) for each in link.answers.items()]
    checks = [check for _, check in link.asked]
    brought = [
        {"do": "asked", "checks": checks},
        {"do": "reply", "text": args["text"], "answers": answers},
    ]
    log = link.log
    return {"log": {**log, "inputs": [*log["inputs"], *(brought if answers else [])]}}


VERBS = {"show": _show, "desk-open": _opened_link, "desk-log": _log_of_link}
