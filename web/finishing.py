"""Answers for what comes after the cause: proving that the set is right.

Loaded by the worker as a part of its own; nothing that the page starts with may import it.
"""

import json
from functools import lru_cache
from pathlib import Path

from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading
from engine.proving.readings import uncertainty
from engine.proving.sheet import ProofSheet
from engine.proving.storing import loaded
from engine.proving.verdict import rules_of
from engine.proving.words import ROWS
from web.answering import CANNOT_USE, MODELS, OWN_PROOFS, Fields, answered, catalogue, own_note
from web.answering import opened as bench_opened
from web.own_counts import model_of
from web.proof_case import entered, prove_case
from web.proof_log import Entered
from web.replaying import Input, Replayed, apply, replay
from web.views.markup import html
from web.views.proof import no_proof_screen, proof_screen
from web.views.proof_paper import proof_lines, proof_on_paper
from web.views.proof_point import control_id
from web.views.proof_state import Proving, counted
from web.views.record import summary
from web.views.state import Refused, Shown

HERE = Path(__file__).parent
PROOFS = "proofs.json"


def answer(request: str) -> str:
    """Return the answer to one request, or the problem with it."""
    return answered(VERBS, request)


def sheet_of(family: str) -> ProofSheet | None:
    """Return the proof of a kind of set, None where there is none.

    That of a set of one's own came with its model, the others were written at build time.
    """
    return _read_sheet(family, OWN_PROOFS.get(family, ""))


@lru_cache(maxsize=8)
def _read_sheet(family: str, own: str) -> ProofSheet | None:
    if own:
        return loaded(json.loads(own))
    records = json.loads((HERE / PROOFS).read_text(encoding="utf-8"))
    return loaded(records[family]) if family in records else None


def _show(args: Fields) -> Fields:
    """Return <main> of the proof of the case at hand, and a sentence on what was entered last."""
    log = args["log"]
    sheet, inputs = sheet_of(log["family"]), list(log["inputs"])
    if sheet is None:
        screens = no_proof_screen(log["family"] == NOT_SURE)
        return {"html": html(*screens), "status": "", "accepted": True}
    proving = opened(model_of(MODELS, log), sheet, inputs)
    refused = proving.refused
    return {
        "html": html(own_note(log["family"]), *proof_screen(proving)),
        "status": CANNOT_USE if refused else sentence(proving, inputs),
        "accepted": refused is None,
        "focus": _field(proving, refused.problem) if refused else None,
    }


def opened(model: SetModel, sheet: ProofSheet, inputs: list[Input]) -> Proving:
    """Return the proof of a log; an unusable last entry is shown beside its field."""
    try:
        check_last(model, sheet, inputs)
    except UnknownReading as problem:
        typed = str(inputs[-1].get("said", ""))
        refused = Refused(problem.check, typed, problem)
        return _proving(model, sheet, replay(model, inputs[:-1]), refused)
    return _proving(model, sheet, replay(model, inputs), None)


def _proving(
    model: SetModel, sheet: ProofSheet, state: Replayed, refused: Refused | None
) -> Proving:
    proof = prove_case(sheet, state.proof, state.case.kit)
    return Proving(model, state, sheet, proof, refused)


def check_last(model: SetModel, sheet: ProofSheet, inputs: list[Input]) -> None:
    """Raise UnknownReading when the last input is about the proof and cannot be used."""
    last = inputs[-1] if inputs else {"do": "nothing"}
    if last["do"] == "proof-rules":
        rules_of(sheet, last["rules"])
    if last["do"] == "accuracy":
        apply(model, replay(model, inputs[:-1]), last)
        _check_fit(sheet, last["instrument"], last["said"])
    if last["do"] == "prove" and str(last.get("said", "")).strip():
        typed = Entered(last["said"], last.get("instrument", ""))
        entered(sheet, last["point"], typed, replay(model, inputs[:-1]).case.kit)


def _check_fit(sheet: ProofSheet, instrument: str, said: str) -> None:
    """Raise UnknownReading for an accuracy that no point measured with an instrument can use."""
    problems = []
    for point in sheet.points:
        for meter in point.meters:
            if meter.instrument == instrument:
                try:
                    uncertainty(point, meter, 1.0, said)
                except UnknownReading as problem:
                    problems.append(problem)
                else:
                    return
    if problems:
        raise problems[0]


def sentence(proving: Proving, inputs: list[Input]) -> str:
    """Return what an entry of a reading came to, for the status line; empty after another one."""
    last = inputs[-1] if inputs else {"do": "nothing"}
    row = next(
        (each for each in proving.proof.now.rows if each.point.id == last.get("point")), None
    )
    if last["do"] != "prove" or row is None or row.reading is None:
        return ""
    return f"{row.point.title}: {ROWS[row.verdict]}. {counted(proving.proof.now)}."


def _field(proving: Proving, problem: UnknownReading) -> str:
    """Return the id of the field that an unusable entry was made in."""
    if problem.check.startswith("accuracy of "):
        return f"accuracy-{problem.check.split(chr(39))[1]}"
    point = proving.sheet.point(problem.check)
    return control_id(point) if point else "rules"


def _later(args: Fields) -> Fields:
    """Return the proof in the record, filled after the repaint; nothing before it is begun."""
    proving = _proving_of(args["log"])
    is_there = proving is not None and proving.log.is_begun
    return {"parts": {"proof": html(proof_on_paper(proving))} if proving and is_there else {}}


def _summary(args: Fields) -> Fields:
    """Return the case with its proof as plain text."""
    proving, (bench, _) = _proving_of(args["log"]), bench_opened(args["log"])
    lines = proof_lines(proving) if proving and proving.log.is_begun else []
    return {"text": summary(bench, catalogue()[0], Shown.read(args.get("view", {})), lines)}


def _proving_of(log: Fields) -> Proving | None:
    sheet = sheet_of(log["family"])
    model = model_of(MODELS, log)
    return _proving(model, sheet, replay(model, list(log["inputs"])), None) if sheet else None


VERBS = {"show": _show, "later": _later, "summary": _summary}
