"""Numbers with units as people write them at the bench: `3.5 W`, `36 dBm`, `40 Vpp`, `4k7`."""

import re
from dataclasses import dataclass

from engine.radio.figures import Figure, Unclear, figure, shown, three, tidy
from engine.radio.units import IN_50_OHM, NEVER_NEGATIVE, Unit, convert, spoken, unit_of
from engine.radio.units import is_unit as is_unit

BETWEEN_DIGITS = re.compile(r"(\d+)([RrkKM])(\d+)(?: ?(?:ohms?|Ω|Ω))?")  # 4k7 is 4.7 kohm
RATIO_TO_ONE = (":1", ": 1", "to 1")
OHM_PREFIXES = {"R": 1.0, "k": 1e3, "M": 1e6}


@dataclass(frozen=True, slots=True)
class Asked:
    """What a check asks for: a number in `unit`, within `span` if one is known.

    `quantity` is deviation, sensitivity, swr, power, am-depth, frequency-error, or nothing special.
    An error is that of the frequency `nominal_mhz`, or else of the carriers, in MHz by channel.
    """

    unit: str
    quantity: str | None = None
    span: tuple[float, float] | None = None
    nominal_mhz: float | None = None
    carriers_mhz: tuple[tuple[int, float], ...] = ()

    def allows(self, value: float) -> bool:
        """Whether a value lies inside the span."""
        return self.span is None or self.span[0] <= value <= self.span[1]


@dataclass(frozen=True, slots=True)
class Understood:
    """A value in the unit asked for; `shown` is it in words, `how` from what it was worked out."""

    value: float
    shown: str
    how: str = ""

    @property
    def words(self) -> str:
        """Return how the entry was understood.

        >>> Understood(4.0, "4.00 W", "40 Vpp across 50 ohm").words
        '40 Vpp across 50 ohm is 4.00 W'
        """
        return f"{self.how} is {self.shown}" if self.how else self.shown


def read_number(text: str, unit: str) -> float:
    """Return what somebody wrote, in `unit`.

    A bare number is taken to be in `unit` already. Powers may be given as dBm, or as a voltage
    across 50 ohm.

    Raises:
        ValueError: with a sentence that says what was not understood.

    >>> read_number("40 Vpp", "W")
    4.0
    >>> read_number("0,4", "W")
    0.4
    """
    return read_quantity(text, Asked(unit)).value


def read_quantity(text: str, asked: Asked) -> Understood:
    """Return a number with its unit, and how it was understood.

    Raises:
        Unclear: with a sentence that says what was not understood.

    >>> read_quantity("40 Vpp", Asked("W")).words
    '40 Vpp across 50 ohm is 4.00 W'
    """
    tidied, wanted = tidy(text), unit_of(asked.unit)
    assert wanted is not None, f"knowledge uses the unknown unit {asked.unit}"
    if wanted.base == "ohm" and (matched := BETWEEN_DIGITS.fullmatch(tidied)):
        letter = {"r": "R", "K": "k"}.get(matched[2], matched[2])
        ohms = float(f"{matched[1]}.{matched[3]}") * OHM_PREFIXES[letter]
        return in_unit(ohms, Unit("ohm", 1.0, "ohm"), wanted, asked)
    told = figure(tidied if tidied else text)
    given = _given(told.rest, wanted, asked.unit)
    return chosen(told, [in_unit(one, given, wanted, asked) for one in told.meanings], given, asked)


def chosen(told: Figure, meanings: list[Understood], given: Unit, asked: Asked) -> Understood:
    """Return the one meaning of a number, or the only one that lies in the span.

    Raises:
        Unclear: a comma may be a decimal one or not, and neither reading rules itself out.
    """
    fitting = [one for one in meanings if asked.allows(one.value)]
    if len(meanings) == 1 or (len(fitting) == 1 and asked.span is not None):
        return (fitting or meanings)[0]
    either, other = (f"{shown(one)} {given.symbol}" for one in told.meanings)
    written = f"{told.sign}{told.digits} {given.symbol}"
    remedy = f"Write {either} or {other}, without a comma."
    raise Unclear(f"'{written}' may mean {either} or {other}", remedy)


def in_unit(value: float, given: Unit, wanted: Unit, asked: Asked) -> Understood:
    """Return a value turned into the unit asked for.

    Raises:
        Unclear: one cannot be turned into the other, or the value cannot be negative.
    """
    unit, written = asked.unit, f"{shown(value)} {given.symbol}"
    reason = NEVER_NEGATIVE.get(given.base)
    is_level = (given.base, wanted.base) in IN_50_OHM and given.base != "dBm"
    if value < 0.0 and (reason or is_level):
        raise Unclear(f"{written}: {reason or 'the size of a voltage is never negative'}")
    try:
        turned = convert(value, given, wanted)
    except OverflowError:
        raise Unclear(f"'{written}' is too large a number") from None
    if turned is None:
        raise Unclear(f"{given.base} cannot be turned into {unit}")
    if given.base == wanted.base:
        how = "" if given.factor == wanted.factor else written
        return Understood(turned, f"{shown(turned)} {unit}", how)
    across = " across 50 ohm" if (given.base, wanted.base) in IN_50_OHM else ""
    return Understood(turned, f"{three(turned)} {unit}", written + across)


def _given(written: str, wanted: Unit, unit: str) -> Unit:
    """Return the unit that was written; nothing, and a ratio's `:1`, stand for the one asked."""
    if not written or (unit == "SWR" and written in RATIO_TO_ONE):
        return Unit(wanted.base, wanted.factor, unit)
    if wanted.base == "ohm" and (prefix := {"K": "k"}.get(written, written)) in OHM_PREFIXES:
        return Unit("ohm", OHM_PREFIXES[prefix], f"{prefix.replace('R', '')}ohm")
    given = spoken(written)
    if given is None:
        raise Unclear(f"'{written}' is no unit that is known here")
    return given
