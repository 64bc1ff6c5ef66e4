"""Answers the page: one JSON text in, one JSON text out. What the worker calls.

Every request carries the whole case as its log of inputs; nothing is remembered between requests
but the families that were loaded and what has been worked out from them.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import Step
from engine.diagnosis.case import CANNOT_CHECK, Case, add_finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.mixing import mix
from engine.diagnosis.model import FamilyText, SetModel
from engine.diagnosis.storage import load_kinds, load_model
from engine.errors import UnknownReading
from engine.inference.elsewhere import pass_elsewhere as pass_elsewhere
from web.demo import DEMO
from web.glossary import in_plain_words
from web.own_counts import KINDS, model_of
from web.replaying import FORMAT, Replayed, apply, is_replayable, replay
from web.taken_back import TAKE_BACK
from web.views.counted import counted_note
from web.views.here_before import history_note
from web.views.home import home
from web.views.markup import h, html
from web.views.page import later, screen
from web.views.plan import plan_screen
from web.views.record.sheet import summary
from web.views.state import OWN, Bench, Refused, Shown
from web.views.verdict import sentence
from web.walking import WALK_VERBS

HERE = Path(__file__).parent
FIRST_CHECKS = 12  # more than any screen shows before it is asked for all
MODELS: dict[str, SetModel] = {}
OWN_PROOFS: dict[str, str] = {}  # what is measured on sets of one's own knowledge, as JSON
NO_CASE = (
    "This file holds no case. A case is a .json file made by “Save as a file”. Nothing was changed."
)
CANNOT_USE = "That entry cannot be used. Nothing was lost."
Fields = Mapping[str, Any]
Verbs = Mapping[str, Callable[[Fields], Fields]]


class RefusedError(Exception):
    """The request cannot be answered; the words are for the person."""


def learn(family: str, text: str) -> None:
    """Load the compiled knowledge of one family; a second line is the proof of one's own set."""
    model, _, proof = text.partition("\n")
    MODELS[family] = load_model(model)
    if proof:
        OWN_PROOFS[family] = proof


def learn_kinds(text: str) -> None:
    """Make one model of all families, which were loaded before, for whoever is not sure."""
    KINDS.append(load_kinds(text))
    MODELS[NOT_SURE] = mix(MODELS, KINDS[-1])


def answer(request: str) -> str:
    """Return the answer to one request, or the problem with it."""
    return answered(VERBS, request)


def answered(verbs: Verbs, request: str) -> str:
    """Return what a verb answers, or the problem with it, as JSON."""
    asked = json.loads(request)
    try:
        return json.dumps({"answer": verbs[asked["verb"]](asked["args"])})
    except RefusedError as problem:
        return json.dumps({"problem": {"kind": "refused", "words": str(problem)}})


@lru_cache(maxsize=32)
def worked_out(model: SetModel, case: Case, whole: bool) -> Step:
    """Return the step of a case, kept because the page asks about the same one again.

    Unless it is wanted whole, checks that would not be shown are left out to save time; not after
    a repair, where those made before it are shown however little they tell.
    """
    return step(model, case, None if whole or case.past else FIRST_CHECKS)


@lru_cache(maxsize=1)
def catalogue() -> tuple[str, tuple[FamilyText, ...]]:
    """Return the version of the site and the families it holds, as written at build time."""
    data = json.loads((HERE / "catalogue.json").read_text(encoding="utf-8"))
    families = [
        FamilyText(**{**each, "recognise": tuple(each["recognise"])}) for each in data["families"]
    ]
    return data["version"], tuple(families)


def opened(log: Fields, refusable: bool = False, whole: bool = True) -> tuple[Bench, bool]:
    """Return the case of a log, and whether its last input was accepted.

    With `refusable` an unusable last answer is shown beside the check instead of set aside.
    """
    model, inputs = model_of(MODELS, log), list(log["inputs"])
    if not refusable or not inputs or inputs[-1]["do"] == TAKE_BACK:
        return bench_of(model, replay(model, inputs), None, whole), True
    state = replay(model, inputs[:-1])
    try:
        return bench_of(model, apply(model, state, inputs[-1]), None, whole), True
    except UnknownReading as problem:
        refused = Refused(str(inputs[-1].get("check")), str(inputs[-1].get("said", "")), problem)
        return bench_of(model, state, refused, whole), False


def bench_of(
    model: SetModel, state: Replayed, refused: Refused | None = None, whole: bool = True
) -> Bench:
    """Return what the views need of a replayed case."""
    before = worked_out(model, state.before, False) if state.before else None
    now = worked_out(model, state.case, whole)
    told = (state.times, state.note, state.set_aside, refused, state.letters, state.history)
    return Bench(model, state.case, now, before, *told)


def _show(args: Fields) -> Fields:
    """Return <main> for a case, or the first screen, and one sentence about it."""
    shown = Shown.read(args["view"])
    log = args.get("log")
    family = shown.family or (log and log["family"])
    if shown.screen == "plan" and family:
        screens = plan_screen(MODELS[family], shown, bool(log))
        return {"html": html(*screens), "status": "", "accepted": True}
    if shown.screen in ("home", "plan") or log is None:
        first = home(catalogue()[1], shown.kept, bool(log))
        return {"html": html(*first), "status": "", "accepted": True}
    bench, accepted = opened(log, refusable=True, whole=_wants_all(shown))
    status = sentence(bench) if accepted else CANNOT_USE
    if not accepted:
        shown = Shown.read(
            {**args["view"], "check": bench.refused.check if bench.refused else None}
        )
    return {
        "html": html(
            own_note(log["family"]),
            counted_note(bench.model),
            history_note(bench),
            *in_plain_words(shown.screen, screen(bench, shown)),
        ),
        "status": status,
        "accepted": accepted,
        "focus": None if accepted else "reading",
    }


def own_note(family: str) -> Element | None:
    """Return whose knowledge a case rests on, when it is not that of this page."""
    words = "Worked out with your own knowledge, not saved on any server."
    return h("p", {"class": "private", "role": "note"}, words) if family.startswith(OWN) else None


def _later(args: Fields) -> Fields:
    shown = Shown.read(args["view"])
    bench, _ = opened(args["log"], whole=_wants_all(shown))
    return {"parts": later(bench, shown, args["part"], catalogue()[0])}


def _wants_all(shown: Shown) -> bool:
    """Say whether the screen needs more checks than the best by gain and by gain per minute."""
    return shown.all_checks or bool(shown.check)


def _foresee(args: Fields) -> Fields:
    """Work out the case after an answer that may be given to the check at hand.

    Asked while the person is busy with the check, so that the answer is soon on screen. Either
    `said` is what stands in the field, or `answer` counts the outcomes from 0; `more` says whether
    there is another one.
    """
    shown = Shown.read(args["view"])
    bench, _ = opened(args["log"], whole=_wants_all(shown))
    check = bench.check_at_hand(shown)
    outcomes = [CANNOT_CHECK, *check.outcomes] if check else []
    said = args.get("said") or dict(enumerate(outcomes)).get(args["answer"])
    if check is None or said is None:
        return {"more": False}
    try:
        finding = read_answer(bench.model, check.id, said)
    except UnknownReading:  # half a number; it is told when it is entered
        return {"more": False}
    whole = _wants_all(replace(shown, check=None))
    worked_out(bench.model, add_finding(bench.case, finding), whole)
    return {"more": args["answer"] + 1 < len(outcomes)}


def _numbers(args: Fields) -> Fields:
    """Return every posterior and gain at full precision."""
    bench, _ = opened(args["log"])
    return {
        "causes": {each.id: each.probability for each in bench.step.causes},
        "gains_bits": {each.id: each.gain_bits for each in bench.step.checks},
        "log2_evidence": bench.step.log2_evidence,
    }


def _summary(args: Fields) -> Fields:
    bench, _ = opened(args["log"])
    return {"text": summary(bench, catalogue()[0], Shown.read(args.get("view", {})))}


def _demo(_: Fields) -> Fields:
    return {"log": DEMO, "view": {"screen": "bench"}}


def _opened_file(args: Fields) -> Fields:
    """Return the log in a saved file."""
    try:
        log = json.loads(args["text"])
        number, family, inputs = log["format"], log["family"], log["inputs"]
    except (ValueError, KeyError, TypeError):
        raise RefusedError(NO_CASE) from None
    if number != FORMAT:
        raise RefusedError(
            f"This case is of format {number}; this page reads {FORMAT}. Update the page."
        )
    # Own knowledge may be in this browser or not: the worker looks when the case is shown.
    is_own = str(family).startswith(OWN)
    if not is_own and family not in [NOT_SURE, *(each.id for each in catalogue()[1])]:
        raise RefusedError(f"This page has no knowledge of the set '{family}'.")
    if not is_replayable(inputs):
        raise RefusedError("This file is damaged: what was entered cannot be read from it.")
    return {"log": {"format": FORMAT, "family": family, "inputs": inputs}}


VERBS: Verbs = {
    **WALK_VERBS,
    "demo": _demo,
    "foresee": _foresee,
    "later": _later,
    "numbers": _numbers,
    "opened": _opened_file,
    "show": _show,
    "summary": _summary,
}
