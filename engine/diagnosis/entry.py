"""What somebody answers, in words or numbers, as a finding."""

from engine.diagnosis.case import CANNOT_CHECK, Finding
from engine.diagnosis.frequencies.entering import heard_channel, on_its_channel
from engine.diagnosis.model import CheckText, SetModel
from engine.errors import UnknownReading, suggest
from engine.radio.figures import Unclear
from engine.radio.quantities import Asked, Understood
from engine.radio.understanding import likely_slips, understand

WORDS = {"y": "yes", "true": "yes", "n": "no", "false": "no"}
CANNOT_WORDS = {CANNOT_CHECK, "cannot check", "?", "-", "not sure", "don't know", "skip"}
SPREADS = 2.0  # standard deviations about what is right


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
    check_id, said = on_its_channel(model, check_id, text.strip())
    check = model.checks.get(check_id)
    if check is None:
        remedy = suggest(check_id, model.checks)
        raise UnknownReading(check_id, f"'{check_id}'", "a check of this family", remedy)
    if said.lower() in CANNOT_WORDS:
        return Finding(check_id, CANNOT_CHECK, None, said)
    if check.meter is not None:
        value = _number(model, check, heard_channel(model, check, said))
        return Finding(check_id, None, value, said)
    return Finding(check_id, _outcome(check, said), None, said)


def understood(model: SetModel, finding: Finding) -> str:
    """Return how a reading was understood, in words; empty where it is the number that was typed.

    `40 Vpp` is understood as `40 Vpp across 50 ohm is 4.00 W`.
    """
    check = model.checks[finding.check]
    if finding.value is None or check.unit is None:
        return ""
    told = understand(heard_channel(model, check, finding.said), asked_by(model, check))
    plain = (told.shown, told.shown.split()[0])
    return "" if _bare(finding.said) in map(_bare, plain) else told.words


def _bare(words: str) -> str:
    """Return a number with its unit as it may be typed in haste."""
    return words.casefold().replace(" ", "").removeprefix("+")


def asked_by(model: SetModel, check: CheckText) -> Asked:
    """Return what a check asks for."""
    assert check.unit is not None
    carriers = model.carriers_mhz if check.nominal_mhz is None else ()
    return Asked(check.unit, check.quantity, check.span, check.nominal_mhz, carriers)


def _number(model: SetModel, check: CheckText, said: str) -> float:
    asked = asked_by(model, check)
    example = f"Write a number in {check.unit}, or with its own unit."
    try:
        told = understand(said, asked)
    except Unclear as error:
        remedy, expected = error.remedy or example, f"a reading in {check.unit}"
        raise UnknownReading(check.id, str(error), expected, remedy) from None
    if not asked.allows(told.value):
        raise _out_of_span(check, said, asked, told)
    return told.value


def _out_of_span(check: CheckText, said: str, asked: Asked, told: Understood) -> UnknownReading:
    """Return the question about a reading that cannot be: what was understood, and the slip."""
    low, high = check.span or (0.0, 0.0)
    found = f"{told.shown} ({told.how})" if told.how else told.shown
    slips = likely_slips(said, asked, _right(check))
    meant = f"Did you mean {' or '.join(slips)}? If not, look" if slips else "Look"
    remedy = f"{meant} again at range, unit and decimal point; what is right: {check.right}"
    return UnknownReading(check.id, found, f"{low:g} to {high:g} {check.unit}", remedy)


def _right(check: CheckText) -> tuple[float, float]:
    """Return the range of readings in the best state."""
    assert check.meter is not None
    best = check.meter.spreads[0]
    return best.low - SPREADS * best.sd, best.high + SPREADS * best.sd


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
