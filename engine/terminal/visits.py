"""What a case file holds of setting up: visits to adjustments, and what they tell of the set."""

from dataclasses import dataclass
from pathlib import Path

from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.diagnosis.opening import changed_file
from engine.knowledge.casefile import CaseDocument, read_case
from engine.knowledge.reading import read_text
from engine.setting_up.guiding import Visit
from engine.setting_up.in_time import moved_along, with_visits
from engine.setting_up.opening import open_visits
from engine.setting_up.sheet import steps


@dataclass(frozen=True, eq=False)
class OpenedFile:
    """A case file that is gone on with: the case in it, and the visits of its set-up."""

    document: CaseDocument
    case: Case
    visits: tuple[Visit, ...]

    def told(self, model: SetModel, now: Case) -> Case:
        """Return the case as it is now with what the visits tell, each where it was made."""
        if not self.visits:
            return now
        return with_visits(model, now, moved_along(self.visits, self.case, now), steps(model, now))

    def text(self, model: SetModel, now: Case) -> str:
        """Return the file with the case as it is now; what else was written stays."""
        moved = moved_along(self.visits, self.case, now)
        set_up = tuple(
            old.model_copy(update={"findings_before": new.findings_before})
            for old, new in zip(self.document.set_up, moved, strict=True)
        )
        return changed_file(model, now, self.document.model_copy(update={"set_up": set_up}))


def opened_file(
    model: SetModel, case: Case, document: CaseDocument | None, path: Path
) -> OpenedFile | None:
    """Return a case file to go on with; None for one that the page saved."""
    if document is None:
        return None
    return OpenedFile(document, case, visits_in(model, case, document, path))


def visits_in(
    model: SetModel, case: Case, document: CaseDocument | None, path: Path, rules: str = ""
) -> tuple[Visit, ...]:
    """Return the visits of a case file; none where it has no 'set-up'."""
    if document is None or not document.set_up:
        return ()
    _, source = read_case(str(path), read_text(path))
    return open_visits(model, case, document, source, rules)


def after_setting_up(
    model: SetModel, case: Case, document: CaseDocument | None, path: Path
) -> Case:
    """Return the case of a file with what was read while the set was set up."""
    visits = visits_in(model, case, document, path)
    return with_visits(model, case, visits, steps(model, case)) if visits else case
