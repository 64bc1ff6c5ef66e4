"""An error of frequency: told as an offset, in ppm, or as the frequency that a counter shows."""

import re
from dataclasses import dataclass

from engine.radio.figures import Figure, Unclear, figure, shown, three, tidy
from engine.radio.quantities import Asked, Understood, chosen
from engine.radio.units import Unit, spoken, unit_of

CHANNEL = re.compile(r",? ?\(?(?:on |at )?\bch(?:annel|an)?\.? ?(\d+)\)?:?,? ?", re.IGNORECASE)
SIDE = re.compile(r" (?:too )?(high|low|above|below|up|down)$", re.IGNORECASE)
DOWNWARD = {"low", "below", "down"}
FREQUENCY_DECIMALS = 3  # nobody writes an error to a millihertz: this is a counter's reading
COUNTED = (Unit("Hz", 1e6, "MHz"), Unit("Hz", 1e3, "kHz"), Unit("Hz", 1.0, "Hz"))
NEAR = 0.02  # of a frequency: then that is what was meant
CHANNEL_TOO = "Say the channel too, such as '+9.8 ppm on channel 20'."


@dataclass(frozen=True, slots=True)
class Right:
    """The right frequency in MHz, and what to call it."""

    mhz: float
    name: str


def read_error(text: str, asked: Asked) -> Understood | None:
    """Return an error of frequency in the unit asked for.

    Raises:
        Unclear: the right frequency is needed and not known, or the number is no error.

    >>> read_error("10.240100 MHz", Asked("ppm", "frequency-error", nominal_mhz=10.24)).words
    '10.2401 MHz, to be 10.24 MHz, is +9.77 ppm'
    """
    told, right = _right(tidy(text), asked)
    told, downward = _without_side(told)
    number = figure(told)
    unit = spoken(number.rest) if number.rest else None
    if number.rest and (unit is None or unit.base not in ("Hz", "ppm")):
        return None
    if right is None:
        _hold_unplaced(number, unit, asked)
    given = unit or _counted_in(number, right) or unit_of(asked.unit)
    assert given is not None
    meanings = [_one(downward * one, given, asked, right) for one in number.meanings]
    return chosen(number, meanings, given, asked)


def _right(text: str, asked: Asked) -> tuple[str, Right | None]:
    """Return the text without its channel, and the right frequency if it is known."""
    if asked.nominal_mhz is not None:
        return text, Right(asked.nominal_mhz, f"{shown(asked.nominal_mhz)} MHz")
    matched = CHANNEL.search(text)
    if matched is None or not asked.carriers_mhz:
        return text, None
    carriers, channel = dict(asked.carriers_mhz), int(matched[1])
    if channel not in carriers:
        first, last = min(carriers), max(carriers)
        raise Unclear(f"channel {channel}", f"The channels go from {first} to {last}.")
    name = f"{shown(carriers[channel])} MHz on channel {channel}"
    return CHANNEL.sub(" ", text).strip(), Right(carriers[channel], name)


def _without_side(text: str) -> tuple[str, float]:
    """Return the text without `high` or `low`, and the sign that stands for."""
    matched = SIDE.search(text)
    if matched is None:
        return text, 1.0
    return text[: matched.start()], -1.0 if matched[1].lower() in DOWNWARD else 1.0


def _one(value: float, given: Unit, asked: Asked, right: Right | None) -> Understood:
    """Return one meaning of what was written."""
    if right is None and (given.base == "ppm") != (asked.unit == "ppm"):
        found = f"{_signed(shown(value))} {given.symbol} cannot be turned into {asked.unit}"
        raise Unclear(found, CHANNEL_TOO if asked.carriers_mhz else "")
    hz = value * given.factor if given.base == "Hz" else 0.0
    if right is not None and abs(hz) > right.mhz * 1e6 / 2.0:
        # Rounded to a millihertz: the difference of two large numbers has noise in it.
        hz = round(hz - right.mhz * 1e6, 3)
        how = f"{shown(value)} {given.symbol}, to be {right.name},"
        return _in_asked(hz, "Hz", asked, right, how)
    how = "" if given.symbol == asked.unit else f"{_signed(shown(value))} {given.symbol}"
    if given.base == "ppm":
        return _in_asked(value, "ppm", asked, right, how)
    return _in_asked(hz, "Hz", asked, right, how)


def _in_asked(size: float, base: str, asked: Asked, right: Right | None, how: str) -> Understood:
    """Return an error in Hz or ppm in the unit asked for."""
    mhz = right.mhz if right else 1.0
    if asked.unit == "ppm":
        value = size if base == "ppm" else size / mhz
    else:
        wanted = unit_of(asked.unit)
        assert wanted is not None
        value = (size if base == "Hz" else size * mhz) / wanted.factor
    exact = base == ("ppm" if asked.unit == "ppm" else "Hz")
    words = _signed(shown(value) if exact else three(value))
    return Understood(value, f"{words} {asked.unit}", how)


def _counted_in(number: Figure, right: Right | None) -> Unit | None:
    """Return the unit in which a bare number is nearly the right frequency: a counter shows it."""
    if right is None or number.sign:
        return None
    for unit in COUNTED:
        mhz = number.meanings[0] * unit.factor / 1e6
        is_fine = unit.symbol != "MHz" or _decimals(number) >= FREQUENCY_DECIMALS
        if is_fine and abs(mhz - right.mhz) < NEAR * right.mhz:
            return unit
    return None


def _decimals(number: Figure) -> int:
    return len(re.sub(r"^\d*[.,]?", "", number.digits))


def _hold_unplaced(number: Figure, unit: Unit | None, asked: Asked) -> None:
    """Question what looks like a whole frequency, where nobody knows which one is right."""
    known = [Right(mhz, f"channel {ch}") for ch, mhz in asked.carriers_mhz]
    if not known:
        return
    if unit is not None:
        _hold_frequency(number.meanings[0], unit, asked)
        return
    nearest = _nearest(number.meanings[0], known)
    if _counted_in(number, nearest) == COUNTED[0]:
        either = f"{number.digits} MHz on {nearest.name}"
        remedy = f"Write '{either}' for the frequency, or '+{number.digits} {asked.unit}'."
        found = f"'{number.digits}' may be a frequency in MHz or an error in {asked.unit}"
        raise Unclear(found, remedy)


def _nearest(mhz: float, known: list[Right]) -> Right:
    return min(known, key=lambda one: abs(one.mhz - mhz))


def _hold_frequency(value: float, unit: Unit, asked: Asked) -> None:
    """Question a whole frequency where its error is asked for and no channel was told."""
    if unit.base != "Hz":
        return
    mhz = value * unit.factor / 1e6
    channel, carrier = min(asked.carriers_mhz, key=lambda one: (abs(one[1] - mhz), one[0]))
    if abs(mhz) < carrier / 2.0:
        return
    remedy = f"Say the channel too, such as '{shown(mhz)} MHz on channel {channel}'"
    nearest = _in_asked(round((mhz - carrier) * 1e6, 3), "Hz", asked, None, "")
    if asked.allows(nearest.value):
        remedy += f", which would be {nearest.shown}"
    raise Unclear(f"{shown(value)} {unit.symbol} is a frequency, not its error", f"{remedy}.")


def _signed(number: str) -> str:
    return number if number.startswith("-") or number == "0" else f"+{number}"
