"""Deviation as people tell it: in kHz, or by the tone at which the carrier vanishes."""

import re

from engine.radio.figures import Unclear, figure, shown, three, tidy
from engine.radio.modulation import deviation_from_null
from engine.radio.quantities import Asked, Understood, read_quantity
from engine.radio.units import unit_of

AUDIBLE = Asked("Hz", span=(20.0, 20000.0))
ORDINALS = {"first": 1, "1st": 1, "1": 1, "second": 2, "2nd": 2, "2": 2, "third": 3, "3rd": 3}
NAMES = ("first", "second", "third")
NULL = re.compile(
    r"(?:carrier )?(?:(\w+) )?(?:carrier )?null(?: ([123])(?= ))?(?: at| with|:| =)? ?"
    r"(\d[\d.,]* ?\w*)(?: tone)?",
    re.IGNORECASE,
)
NULL_LAST = re.compile(
    r"(\d[\d.,]* ?[a-z]*)(?: tone)?,? (?:at |for )?(?:the )?(?:(\w+) )?(?:carrier )?null",
    re.IGNORECASE,
)
PLUS_MINUS = re.compile(r"^(?:±|\+/-|\+-|peak) ?", re.IGNORECASE)


def read_deviation(text: str, asked: Asked) -> Understood | None:
    """Return a peak deviation told by a null of the carrier; None for a plain number without `±`.

    Raises:
        Unclear: there is no such null, or the tone cannot be heard.

    >>> read_deviation("2nd null 453 Hz", Asked("kHz", "deviation")).words
    'a tone of 453 Hz at the second null of the carrier is 2.50 kHz'
    """
    tidied = tidy(text)
    if "null" in tidied.lower():
        return _by_null(tidied, asked)
    plain = PLUS_MINUS.sub("", tidied)
    return read_quantity(plain, asked) if plain != tidied else None


def _by_null(text: str, asked: Asked) -> Understood:
    if matched := NULL.fullmatch(text):
        word, tone = matched[2] or matched[1], matched[3]
    elif matched := NULL_LAST.fullmatch(text):
        word, tone = matched[2], matched[1]
    else:
        raise Unclear(f"'{text}' is no carrier null", "Write it as 'first null at 1040 Hz'.")
    number = ORDINALS.get((word or "first").lower(), 0)
    if not number:
        known = ", ".join(NAMES)
        raise Unclear(f"'{word} null'", f"The nulls known here are the {known}.")
    tone_hz = _tone(tone)
    value = deviation_from_null(tone_hz, number) / _factor(asked)
    how = f"a tone of {shown(tone_hz)} Hz at the {NAMES[number - 1]} null of the carrier"
    return Understood(value, f"{three(value)} {asked.unit}", how)


def _tone(text: str) -> float:
    """Return a tone in Hz; one that nobody could hear is questioned."""
    tone_hz = read_quantity(text, AUDIBLE).value
    low, high = AUDIBLE.span or (0.0, 0.0)
    if low <= tone_hz <= high:
        return tone_hz
    number = figure(text).digits
    meant = f"Did you mean {number} kHz? " if low <= tone_hz * 1000.0 <= high else ""
    raise Unclear(
        f"a tone of {shown(tone_hz)} Hz",
        f"{meant}A tone lies between {shown(low)} and {shown(high)} Hz.",
    )


def _factor(asked: Asked) -> float:
    unit = unit_of(asked.unit)
    assert unit is not None
    return unit.factor
