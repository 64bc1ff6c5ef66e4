"""Guided setting up: which step is next, what must be done again, and what it tells of the set.

All is worked out from the visits so far, a list in order of time, so undoing one is leaving it
out. The page keeps the list; nothing here remembers anything.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from engine.diagnosis.case import Case, Repair, add_finding, repaired
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading, suggest
from engine.setting_up.reach import Reason
from engine.setting_up.sheet import Step
from engine.setting_up.verdict import Entry, StepVerdict, verdict

State = Literal[
    "to-do", "again", "off", "missing", "stuck", "not-needed", "holds", "cannot-tell", "left-out"
]
OPEN: tuple[State, ...] = ("to-do", "again", "off", "missing")
ADJUSTED = "adjusted"


@dataclass(frozen=True, slots=True)
class Visit:
    """One visit to an adjustment: what was read there, and whether it will not come right.

    `entries` are one for each thing wanted; none at all leave the step out. `gave_up` says that
    it was turned as far as it goes and the value wanted was not reached. `findings_before` is how
    many findings of a case file had been made; None for all of them.
    """

    adjustment: str
    entries: tuple[Entry, ...] = ()
    gave_up: bool = False
    findings_before: int | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a step stands.

    `to-do`; `again`, because what was turned since moved it or came before it (`reason`); `off`,
    turn it further, or back under a limit; `missing`, not all of it was read; `stuck`, it will not
    come right; `not-needed`, because nothing that moves it had to be turned; `left-out`; `holds`;
    or `cannot-tell` with these instruments. `judged` is the verdict of the latest visit, None
    where there was none.
    """

    step: Step
    state: State
    judged: StepVerdict | None = None
    reason: Reason | None = None
    visits: int = 0


@dataclass(frozen=True, slots=True)
class Progress:
    """Every step with where it stands, and the one to make next; None when all is done.

    `stuck` are those that will not come right: back to diagnosis before going on.
    """

    standings: tuple[Standing, ...]
    next: Standing | None
    stuck: tuple[Standing, ...]


def progress(
    model: SetModel,
    case: Case,
    steps: Sequence[Step],
    visits: Sequence[Visit],
) -> Progress:
    """Return where setting up stands after these visits.

    Args:
        model: the kind of set.
        case: the set on the bench, for its kit.
        steps: the sheet, out of `steps`.
        visits: in order of time; those to adjustments out of turn too.

    Raises:
        UnknownReading: a visit to what is not on the sheet, or with what is no reading.
    """
    on_sheet = {step.id: step for step in steps}
    judged: list[StepVerdict] = []
    for visit in visits:
        if visit.adjustment not in on_sheet:
            expected, remedy = "a step of this sheet", suggest(visit.adjustment, on_sheet)
            raise UnknownReading(visit.adjustment, f"'{visit.adjustment}'", expected, remedy)
        step = on_sheet[visit.adjustment]
        judged.append(verdict(model, case.kit, step, visit.entries))
    standings: list[Standing] = []
    for step in steps:
        standings.append(_standing(model, step, visits, judged, standings))
    waiting = next((one for one in standings if one.state in OPEN), None)
    return Progress(
        tuple(standings), waiting, tuple(one for one in standings if one.state == "stuck")
    )


def with_evidence(model: SetModel, case: Case, step: Step, visit: Visit) -> Case:
    """Return the case with what a visit tells of the set.

    A reading that a check would have made is a finding of that check. Where the adjustment was
    turned, it has been put right from then on, and what was read after is of the set as it is
    then: if it is still off, that speaks against everything else it hangs on, so an adjustment
    that will not come right leads back to diagnosis with no word more. One that came right is fine
    from then on, and whether it had been wrong is settled. What is told in a unit that
    the check does not know is no finding.

    Raises:
        UnknownReading: a reading that the check refuses, such as one out of all reason.
    """
    pairs = list(zip(step.wanted, visit.entries, strict=False))
    for wanted, entry in pairs:
        case = _found(model, case, wanted.check, entry.before)
    if visit.gave_up or any(entry.after for _, entry in pairs):
        holds = verdict(model, case.kit, step, visit.entries).verdict == "holds"
        case = repaired(case, Repair(step.id, ADJUSTED, is_settled=holds and not visit.gave_up))
    for wanted, entry in pairs:
        case = _found(model, case, wanted.check, entry.after)
    return case


def _found(model: SetModel, case: Case, check: str, text: str) -> Case:
    """Return the case with a reading as a finding, where there is a check and it was read."""
    return add_finding(case, read_answer(model, check, text)) if check and text else case


def _standing(
    model: SetModel,
    step: Step,
    visits: Sequence[Visit],
    judged: Sequence[StepVerdict],
    earlier: Sequence[Standing],
) -> Standing:
    """Return where one step stands; those before it on the sheet are known."""
    own = [number for number, visit in enumerate(visits) if visit.adjustment == step.id]
    if not own:
        state: State = "not-needed" if _is_idle(step, earlier) else "to-do"
        return Standing(step, state, reason=step.reason)
    last = own[-1]
    now, count = judged[last], len(own)
    reason = _undone(model, step, visits[last + 1 :], judged[last + 1 :])
    if visits[last].gave_up and now.verdict != "holds":
        return Standing(step, "stuck", now, None, count)
    if not visits[last].entries:
        return Standing(step, "left-out", None, None, count)
    if reason is not None:
        return Standing(step, "again", now, reason, count)
    return Standing(step, "off" if now.verdict == "over" else now.verdict, now, None, count)


def _is_idle(step: Step, earlier: Sequence[Standing]) -> bool:
    """Whether all that would move a step has been looked at and none had to be turned."""
    if step.reason.kind != "if-turned":
        return False
    movers = [one for one in earlier if one.step.id in step.reason.by]
    if len(movers) < len(step.reason.by):
        return False
    at_rest = ("holds", "cannot-tell", "not-needed", "left-out")
    return all(
        one.state in at_rest and not (one.judged is not None and one.judged.is_turned)
        for one in movers
    )


def _undone(
    model: SetModel, step: Step, visits: Sequence[Visit], judged: Sequence[StepVerdict]
) -> Reason | None:
    """Return why a step must be done again after what was turned since; None where it stands."""
    assert model.setting_up is not None
    turned = dict.fromkeys(
        visit.adjustment
        for visit, one in zip(visits, judged, strict=True)
        if one.is_turned and visit.adjustment != step.id
    )
    moved = tuple(one for one in turned if step.id in model.setting_up.upsets.get(one, ()))
    if moved:
        return Reason("moved", moved)
    before = tuple(one for one in turned if one in step.setting.first)
    return Reason("looked-through", before) if before else None
