"""What somebody answers, in words or numbers, as a finding."""

from engine.diagnosis.case import CANNOT_CHECK, Finding
from engine.diagnosis.model import CheckText, SetModel
from engine.errors import UnknownReading, suggest
from engine.radio.quantities import read_number

WORDS = {"y": "yes", "true": "yes", "n": "no", "false": "no"}
CANNOT_WORDS = {CANNOT_CHECK, "cannot check", "?", "-", "not sure", "don't know", "skip"}


def read_answer(model: SetModel, check_id: str, text: str) -> Finding:
    """Return what `text` says about a check.

    Args:
        model: the kind of set.
        check_id: `block.check`.
        text: an outcome by its id or title, yes or no, a number with or without a unit, or
            `cannot-check`.

    Raises:
        UnknownReading: no such check, no such outcome, not a number, or one outside of the span.
    """
    check = model.checks.get(check_id)
    if check is None:
        remedy = suggest(check_id, model.checks)
        raise UnknownReading(check_id, f"'{check_id}'", "a check of this family", remedy)
    said = text.strip()
    if said.lower() in CANNOT_WORDS:
        return Finding(check_id, CANNOT_CHECK, None, said)
    if check.meter is not None:
        return Finding(check_id, None, _number(check, said), said)
    return Finding(check_id, _outcome(check, said), None, said)


def _number(check: CheckText, said: str) -> float:
    assert check.unit is not None
    assert check.span is not None
    example = f"Write a number in {check.unit}, or with its own unit."
    try:
        value = read_number(said, check.unit)
    except ValueError as error:
        raise UnknownReading(check.id, str(error), f"a reading in {check.unit}", example) from None
    low, high = check.span
    if not low <= value <= high:
        found = f"{value:g} {check.unit}"
        expected = f"{low:g} to {high:g} {check.unit}"
        remedy = "Look again at range, unit and decimal point; what is right: " + check.right
        raise UnknownReading(check.id, found, expected, remedy)
    return value


def _outcome(check: CheckText, said: str) -> str:
    word = said.lower()
    word = WORDS.get(word, word) if "yes" in check.outcomes else word
    by_title = {title.lower(): name for name, title in check.outcomes.items()}
    outcome = by_title.get(word, word.replace(" ", "-"))
    if outcome not in check.outcomes:
        expected = f"one of {', '.join(check.outcomes)}, or {CANNOT_CHECK}"
        remedy = suggest(said, [*check.outcomes, CANNOT_CHECK])
        raise UnknownReading(check.id, f"'{said}'", expected, remedy)
    return outcome
