"""Turns the log of a case into the case: every input again, in order, from nothing."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from engine.diagnosis.case import HOWS, Case, Kit, Repair, add_finding, repaired, withdraw
from engine.diagnosis.entry import read_answer
from engine.diagnosis.frequencies.entering import channels_of
from engine.diagnosis.model import SetModel
from engine.diagnosis.returning import History
from engine.errors import UnknownReading
from engine.radio.quantities import read_number
from web.accuracies import with_accuracy
from web.history import are_visits, read_visits
from web.letter_log import LETTER_INPUTS, Letters, letters_after
from web.proof_log import PROOF_INPUTS, ProofLog, logged
from web.set_up_log import SET_UP_INPUTS, SetUpLog, after_repair, set_up_logged
from web.taken_back import TAKE_BACK, standing

FORMAT = 1  # of the log; older ones stay readable
MOST_PPM = 1000.0
NOTHING = Kit(frozenset(), "on")
Input = Mapping[str, Any]
ABOUT_THE_KIND = "set."
LATER = "an entry of another version"
TEXTS = (
    "check",
    "said",
    "at",
    "text",
    "instrument",
    "lid",
    "cause",
    "how",
    "point",
    "rules",
    "adjustment",
    "sheet",
    "gave-up",
)
NEEDS = {
    "answer": ("check",),
    "withdraw": ("check",),
    "have": ("instrument",),
    "lack": ("instrument",),
    "kit": ("instruments",),
    "lid": ("lid",),
    "message": ("text",),
    "reply": ("text", "answers"),
    "asked": ("checks",),
    "repair": ("cause", "how"),
    "unrepair": ("cause",),
    "accuracy": ("instrument", "said"),
    "prove": ("point",),
    "proof-rules": ("rules",),
    "history": ("visits",),
    "set": ("adjustment",),
    "unset": ("adjustment",),
    "set-up-sheet": ("sheet",),
}
LISTS = ("instruments", "checks")
REPAIR = ""  # in place of a check, among the times
Times = Mapping[tuple[int, str], str]


@dataclass(frozen=True, slots=True)
class Replayed:
    """A case as its log leaves it.

    `before` is the case before the last input that touched the findings; `times` the local time of
    each finding, by how many repairs had been made and its check, and of each repair, by its
    number from 0 and `REPAIR`; `set_aside` what this version could not use, in words; `proof` and
    `set_up` what was typed when the set was proved and set up; `history` what counts of its earlier
    cases.
    """

    case: Case
    before: Case | None = None
    times: Times = field(default_factory=dict)
    note: str = ""
    set_aside: tuple[str, ...] = ()
    letters: Letters = field(default_factory=Letters)
    proof: ProofLog = field(default_factory=ProofLog)
    history: History = ()
    set_up: SetUpLog = field(default_factory=SetUpLog)


def is_replayable(inputs: Any) -> bool:
    """Whether `inputs`, as read from a file, have the shape of those a log holds.

    An input that does something unknown to this version passes: it is set aside when replayed.
    """
    return isinstance(inputs, list) and all(map(_is_input, inputs))


def _is_input(given: Any) -> bool:
    if not isinstance(given, dict) or not isinstance(given.get("do"), str):
        return False
    if any(not isinstance(given[key], str) for key in TEXTS if key in given):
        return False
    if not all(_is_list_of_texts(given.get(key, [])) for key in LISTS):
        return False
    answers = given.get("answers", [])
    if not isinstance(answers, list) or not all(map(_is_pair, answers)):
        return False
    if not are_visits(given.get("visits", [])):
        return False
    return all(key in given for key in NEEDS.get(given["do"], ()))


def _is_list_of_texts(listed: Any) -> bool:
    return isinstance(listed, list) and all(isinstance(each, str) for each in listed)


def _is_pair(answer: Any) -> bool:
    return _is_list_of_texts(answer) and len(answer) == 2


def replay(model: SetModel, inputs: list[Input]) -> Replayed:
    """Return the case after `inputs`; those it cannot use are set aside, and said.

    A repair that was taken back is as if it had never been.
    """
    state, stands = Replayed(Case(model.family.id, NOTHING, ())), standing(inputs)
    for given in stands:
        try:
            state = apply(model, state, given)
        except UnknownReading as problem:
            words = f"{given.get('check') or given.get('cause') or problem.check}: {problem.found}"
            state = replace(state, set_aside=(*state.set_aside, words))
    if inputs and inputs[-1]["do"] == TAKE_BACK and len(stands) < len(inputs):
        state = replace(state, before=replay(model, inputs[:-1]).case)
    return state


def apply(model: SetModel, state: Replayed, given: Input) -> Replayed:
    """Return the state after one input.

    Raises:
        UnknownReading: the input names a check this set has not, or an answer that does not fit.
    """
    match given["do"]:
        case "answer":
            return _answer(model, state, given)
        case "withdraw":
            case = withdraw(state.case, given["check"])
            return replace(state, case=case, before=state.case)
        case "repair":
            return _repair(model, state, given)
        case "unrepair":
            found, remedy = "nothing to take back", "It is left out."
            raise UnknownReading(given["cause"], found, "a cause that was put right", remedy)
        case "note":
            return replace(state, note=str(given.get("text", "")))
        case "history":
            return replace(state, history=read_visits(given["visits"]), before=state.case)
        case name if name in LETTER_INPUTS:
            return _letter(model, state, given)
        case "have" | "lack" | "kit" | "lid" | "counter" | "accuracy":
            return replace(state, case=replace(state.case, kit=_kit(model, state.case.kit, given)))
        case name if name in PROOF_INPUTS:
            return replace(state, proof=logged(state.proof, given))
        case name if name in SET_UP_INPUTS:
            return replace(state, set_up=set_up_logged(state.set_up, given))
    raise UnknownReading(LATER, str(given["do"]), "an input of this version", "Update the page.")


def _answer(model: SetModel, state: Replayed, given: Input) -> Replayed:
    check, said = given["check"], str(given.get("said", ""))
    if check not in model.checks and not channels_of(model, check):
        if check.startswith(ABOUT_THE_KIND) and not model.kinds:
            return state  # which kind it is has been settled
        raise UnknownReading(check, said, "a check of this set", "It is left out.")
    if not said:
        return replace(state, case=withdraw(state.case, check), before=state.case)
    finding = read_answer(model, check, said)
    times = {**state.times, (len(state.case.past), finding.check): str(given.get("at", ""))}
    return replace(state, case=add_finding(state.case, finding), before=state.case, times=times)


def _repair(model: SetModel, state: Replayed, given: Input) -> Replayed:
    """Return the state after a cause was put right; what is found later is of the set as it is."""
    cause, how = given["cause"], given["how"]
    if cause not in model.causes or model.causes[cause].kind == "event":
        raise UnknownReading(cause, "a repair", "a cause of this set", "It is left out.")
    if how not in HOWS:
        raise UnknownReading(cause, how, f"one of {', '.join(HOWS)}", "It is left out.")
    times = {**state.times, (len(state.case.past), REPAIR): str(given.get("at", ""))}
    case, proof = repaired(state.case, Repair(cause, how)), logged(state.proof, given)
    upsets = model.setting_up.upsets if model.setting_up else {}
    set_up = after_repair(state.set_up, cause, upsets)
    return replace(state, case=case, before=state.case, times=times, proof=proof, set_up=set_up)


def _letter(model: SetModel, state: Replayed, given: Input) -> Replayed:
    """Return the state after something was written, with all answers of a reply at once."""
    before = state.case
    state = replace(state, letters=letters_after(state.letters, given))
    if given["do"] != "reply":
        return state
    for check, said in given["answers"]:
        answer = {"check": check, "said": said, "at": given.get("at", "")}
        try:
            state = _answer(model, state, answer)
        except UnknownReading as problem:
            state = replace(state, set_aside=(*state.set_aside, f"{check}: {problem.found}"))
    return replace(state, before=before)


def _kit(model: SetModel, kit: Kit, given: Input) -> Kit:
    """Return the kit after one input about it."""
    match given["do"]:
        case "have":
            return replace(kit, instruments=kit.instruments | {given["instrument"]})
        case "lack":
            return replace(kit, instruments=kit.instruments - {given["instrument"]})
        case "lid":
            return replace(kit, lid="off" if given["lid"] == "off" else "on")
        case "counter":
            return replace(kit, counter_ppm=_ppm(str(given.get("ppm", ""))))
        case "accuracy":
            return with_accuracy(kit, given["instrument"], given["said"])
    known = [each for each in given["instruments"] if each in model.instruments]
    return replace(kit, instruments=frozenset(known))


def _ppm(said: str) -> float | None:
    """Return the tolerance of a counter as it was typed, None when nothing was."""
    if not said.strip():
        return None
    try:
        ppm = read_number(said, "ppm")
    except ValueError as problem:
        raise UnknownReading("counter", str(problem), "parts in a million", "Such as 5.") from None
    if not 0.0 < ppm <= MOST_PPM:
        raise UnknownReading("counter", f"{ppm:g} ppm", f"0 to {MOST_PPM:g} ppm", "Such as 5.")
    return ppm
