"""What the views of setting up are given: the case, its sheet, what was typed."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading
from engine.setting_up.guiding import Standing, State
from engine.setting_up.sheet import Step
from web.replaying import Replayed
from web.set_up_case import SetUpCase
from web.set_up_log import SetUpLog, entries_of
from web.views.state import Refused

MARKS: Mapping[State, str] = {
    "to-do": "·", "again": "↻", "off": "✕", "missing": "·", "stuck": "✕", "not-needed": "–",
    "left-out": "–", "holds": "✓", "cannot-tell": "?",
}  # fmt: skip
SHORT: Mapping[State, str] = {
    "to-do": "to do", "again": "again", "off": "off", "missing": "not all read",
    "stuck": "will not come right", "not-needed": "not needed", "left-out": "left out",
    "holds": "holds", "cannot-tell": "cannot tell",
}  # fmt: skip
DONE: frozenset[State] = frozenset({"holds", "cannot-tell", "not-needed", "left-out"})


@dataclass(frozen=True, slots=True)
class Setting:
    """The case as it was replayed, its set-up sheet, and an entry that could not be used.

    `unfolded` is the step that somebody opened by hand.
    """

    model: SetModel
    state: Replayed
    sheet: SetUpCase
    unfolded: str = ""
    refused: Refused | None = None
    typed: Mapping[str, Any] | None = None  # what was refused, field by field

    @property
    def last(self) -> str:
        """The adjustment visited last, empty where none was."""
        return self.log.visits[-1].adjustment if self.log.visits else ""

    @property
    def log(self) -> SetUpLog:
        """What was typed."""
        return self.state.set_up

    def problem_of(self, step: Step) -> UnknownReading | None:
        """Return what cannot be used of a step."""
        if self.refused is not None and self.refused.check == step.id:
            return self.refused.problem
        return self.sheet.unusable.get(step.id)

    def typed_at(self, standing: Standing) -> tuple[tuple[str, str], ...]:
        """Return what stands in the fields of a step: what was refused, else the latest visit.

        A step that is due again is read anew: its fields are empty.
        """
        step = standing.step
        if self.typed is not None and self.typed.get("adjustment") == step.id:
            return entries_of(self.typed)
        visits = [each for each in self.log.visits if each.adjustment == step.id]
        return visits[-1].entries if visits and standing.state != "again" else ()


def badge_words(standing: Standing) -> str:
    """Return where a step stands with its mark: not told by colour alone."""
    return f"{MARKS[standing.state]} {SHORT[standing.state]}"


def counted(sheet: SetUpCase) -> str:
    """Word how many steps are behind."""
    done = sum(each.state in DONE for each in sheet.progress.standings)
    return f"{done} of {len(sheet.steps)} steps done"
