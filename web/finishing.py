"""Answers for what comes after the cause: setting the set up, proving that it is right.

Loaded by the worker as a part of its own; nothing that the page starts with may import it.
"""

from web.answering import Fields, answered, catalogue
from web.answering import opened as bench_opened
from web.proof_answers import proving_of, show_proof
from web.set_up_answers import set_up_of, show_set_up
from web.views.markup import html
from web.views.part import Part, as_text, on_paper
from web.views.proof.part import proof_part
from web.views.record.sheet import summary
from web.views.setting.part import setting_part
from web.views.state import Shown


def answer(request: str) -> str:
    """Return the answer to one request, or the problem with it."""
    return answered(VERBS, request)


def _show(args: Fields) -> Fields:
    """Return <main> of one of the two screens."""
    return show_set_up(args) if args["view"].get("screen") == "set-up" else show_proof(args)


def _parts(log: Fields) -> list[Part]:
    """Return what the record says of setting up and proving, each once it was begun."""
    setting, proving = set_up_of(log), proving_of(log)
    parts = []
    if setting is not None and setting.log.is_begun:
        parts.append(setting_part(setting))
    if proving is not None and proving.log.is_begun:
        parts.append(proof_part(proving))
    return parts


def _later(args: Fields) -> Fields:
    """Return the parts of the record that come after the repaint; none before they are begun."""
    return {"parts": {"proof": html(*map(on_paper, _parts(args["log"])))}}


def _summary(args: Fields) -> Fields:
    """Return the case as plain text, with how it was set up and proved."""
    bench, _ = bench_opened(args["log"])
    lines = [line for part in _parts(args["log"]) for line in as_text(part)]
    return {"text": summary(bench, catalogue()[0], Shown.read(args.get("view", {})), lines[1:])}


VERBS = {"show": _show, "later": _later, "summary": _summary}
