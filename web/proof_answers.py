"""Answers about proving the set at hand: the screen, an entry that cannot be used, a sentence."""

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
from web.answering import CANNOT_USE, MODELS, OWN_PROOFS, Fields, own_note
from web.own_counts import model_of
from web.proof_case import entered, prove_case
from web.proof_log import Entered
from web.replaying import Input, Replayed, apply, replay
from web.views.markup import html
from web.views.proof.point import control_id
from web.views.proof.screen import no_proof_screen, proof_screen
from web.views.proof.state import Proving, counted
from web.views.state import Refused

HERE = Path(__file__).parent
PROOFS = "proofs.json"


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


def show_proof(args: Fields) -> Fields:
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


def proving_of(log: Fields) -> Proving | None:
    """Return the proof of a log, None where nothing says how such a set is proved."""
    sheet = sheet_of(log["family"])
    model = model_of(MODELS, log)
    return _proving(model, sheet, replay(model, list(log["inputs"])), None) if sheet else None
