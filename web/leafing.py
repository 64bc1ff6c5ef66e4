"""Answers for the screens that are fetched only when somebody opens them: knowledge, own knowledge.

Loaded by the worker as a part of its own; nothing that the page starts with may import it.
"""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Case
from web.answering import MODELS, Fields, answered
from web.replaying import replay
from web.views.leaves.screen import leaf_screen
from web.views.markup import html
from web.views.own.files import OwnFiles
from web.views.own.screen import own_screen
from web.views.state import Shown


def answer(request: str) -> str:
    """Return the answer to one request, or the problem with it."""
    return answered(VERBS, request)


def _show(args: Fields) -> Fields:
    """Return <main> of a leaf, or of the screen for authors."""
    shown, log = Shown.read(args["view"]), args.get("log")
    screens: Sequence[Element | None]
    if shown.screen == "own":
        screens = own_screen(OwnFiles.read(args.get("own")), bool(log))
    else:
        family = str(shown.family or (log and log["family"]))
        screens = leaf_screen(MODELS[family], shown, bool(log), _at_hand(family, log))
    return {"html": html(*screens), "status": "", "accepted": True}


def _at_hand(family: str, log: Fields | None) -> Case | None:
    """Return the case at hand, where that is of this family."""
    if not log or log["family"] != family:
        return None
    return replay(MODELS[family], list(log["inputs"])).case


VERBS = {"show": _show}
