"""What is typed after `repaired`: a cause by its number or id, and how it was put right."""

from collections.abc import Iterator

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import Step, mendable
from engine.diagnosis.case import HOWS, Case, Repair, usual_how
from engine.diagnosis.model import SetModel
from engine.errors import suggest
from engine.terminal.report import repeat_lines


def repaired_lines(model: SetModel, case: Case, repair: Repair) -> Iterator[str]:
    """Yield what was put right, and which checks are worth making again; `case` is after it."""
    yield f"Put right: {model.causes[repair.cause].title}. From now on answer for the set as it is."
    yield from repeat_lines(model, case, step(model, case))


def read_repair(answer: Step, text: str) -> Repair | None:
    """Return the repair that a line tells; None after telling what is wrong with it."""
    which, _, told = text.strip().partition(" ")
    known = {cause.id: cause for cause in mendable(answer.causes)}
    numbered = {str(number): cause.id for number, cause in enumerate(answer.causes, start=1)}
    name = numbered.get(which, which)
    kind = known[name].kind if name in known else ""
    how = told.strip().replace(" ", "-") or usual_how(kind)
    if name not in known:
        print(f"Repaired what? A number of the list that 'causes' shows. {suggest(name, known)}")
        return None
    if how not in HOWS:
        print(f"Found '{told.strip()}', expected one of {', '.join(HOWS)}.")
        return None
    return Repair(name, how)
