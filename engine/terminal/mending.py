"""What is typed after `repaired`: a cause by its number or id, and how it was put right."""

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import Step, mendable
from engine.diagnosis.case import HOWS, Case, Repair, repaired, usual_how
from engine.diagnosis.model import SetModel
from engine.errors import suggest
from engine.terminal.report import repeat_lines


def mended(model: SetModel, case: Case, answer: Step, text: str) -> Case | None:
    """Return the case after the repair that a line tells, None after telling what is wrong.

    Prints which checks are worth making again.
    """
    repair = read_repair(answer, text)
    if repair is None:
        return None
    print(
        f"Put right: {model.causes[repair.cause].title}. From now on answer for the set as it is."
    )
    after = repaired(case, repair)
    for line in repeat_lines(model, after, step(model, after)):
        print(line)
    return after


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
