"""What a case file holds of setting up: visits to adjustments, and what they tell of the set."""

from pathlib import Path

from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.knowledge.casefile import CaseDocument, read_case
from engine.knowledge.reading import read_text
from engine.setting_up.guiding import Visit
from engine.setting_up.opening import open_visits, with_visits
from engine.setting_up.sheet import steps


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
    """Return the case of a file with what was read while the set was set up, last of all."""
    visits = visits_in(model, case, document, path)
    return with_visits(model, case, visits, steps(model, case)) if visits else case
