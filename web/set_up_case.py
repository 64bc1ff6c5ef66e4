"""Setting up the case at hand: the sheet, where every step stands, what cannot be used."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from engine.diagnosis.case import CANNOT_CHECK, Case
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading
from engine.setting_up.guiding import ADJUSTED, Progress, Standing, Visit, progress
from engine.setting_up.sheet import Step, put_right, steps
from engine.setting_up.verdict import Entry, verdict
from web.replaying import Input, Replayed
from web.set_up_log import EVERYTHING, Visited


@dataclass(frozen=True, eq=False)
class SetUpCase:
    """The sheet of a case and how far it has come; `unusable` is told by adjustment.

    `is_whole` says that the whole set is gone through, and not what a repair made necessary.
    """

    steps: tuple[Step, ...]
    progress: Progress
    is_whole: bool
    unusable: Mapping[str, UnknownReading]

    def standing(self, adjustment: str) -> Standing | None:
        """Return where a step stands, None where it is not on the sheet."""
        found = (each for each in self.progress.standings if each.step.id == adjustment)
        return next(found, None)


def set_up_case(model: SetModel, state: Replayed) -> SetUpCase:
    """Return how far setting up has come; visits that cannot be used are told and left out.

    Rules that are not for this set give way to its own.
    """
    repairs = put_right(state.case)
    is_whole = state.set_up.sheet == EVERYTHING or not repairs
    after = None if is_whole else repairs
    try:
        sheet = steps(model, state.case, after, state.proof.rules)
    except UnknownReading:
        sheet = steps(model, state.case, after)
    visits: list[Visit] = []
    unusable: dict[str, UnknownReading] = {}
    by_name = {step.id: step for step in sheet}
    for each in state.set_up.visits:
        if each.adjustment in by_name:
            try:
                visits.append(visit_of(model, state.case, by_name[each.adjustment], each))
            except UnknownReading as problem:
                unusable[each.adjustment] = problem
    return SetUpCase(sheet, progress(model, state.case, sheet, visits), is_whole, unusable)


def visit_of(model: SetModel, case: Case, step: Step, typed: Visited) -> Visit:
    """Return a visit as the engine takes it.

    Raises:
        UnknownReading: something typed is no reading of what is wanted.
    """
    entries = tuple(Entry(*pair) for pair in typed.entries)
    verdict(model, case.kit, step, entries)
    return Visit(step.id, entries, typed.gave_up)


def evidence(model: SetModel, standing: Standing) -> list[Input]:
    """Return what a step that will not come right tells of the set, as inputs of the case.

    As `with_evidence` of the engine has it: what was read before, that it was adjusted, what was
    read after; readings that no check takes are left out.
    """
    assert standing.judged is not None
    rows = standing.judged.rows
    before = list(_answers(model, ((row.wanted.check, row.entry.before) for row in rows)))
    after = list(_answers(model, ((row.wanted.check, row.entry.after) for row in rows)))
    adjusted: Input = {"do": "repair", "cause": standing.step.id, "how": ADJUSTED}
    is_turned = standing.judged.is_turned or standing.state == "stuck"
    return [*before, *([adjusted] if is_turned else []), *after]


def _answers(model: SetModel, read: Iterator[tuple[str, str]]) -> Iterator[Input]:
    for check, said in read:
        if check and said:
            try:
                finding = read_answer(model, check, said)
            except UnknownReading:
                continue
            if finding.outcome != CANNOT_CHECK:
                yield {"do": "answer", "check": check, "said": said}
