"""How good an instrument is, as it is written: `5 %`, `2 ppm + 1 Hz`, `1 dB`, `5 % of 10 W`.

References:
    JCGM 100:2008 (GUM), 4.3.7: within limits +-a of which nothing else is known, u = a / sqrt(3);
    5.1.2: uncorrelated parts are added as squares. Both from memory.
"""

import re
from dataclasses import dataclass
from math import hypot, sqrt

from engine.radio.figures import Unclear, figure, shown, tidy
from engine.radio.power import vpp_from_watt
from engine.radio.units import Unit, convert, spoken, unit_of

LIMITS = sqrt(3.0)  # +-a stands for limits
COVERAGE = re.compile(r",? ?\(?k ?= ?(\d+(?:[.,]\d+)?)\)?$", re.IGNORECASE)
OF_RANGE = re.compile(r"(.+?) ?% of (.+)")
SIGNS = re.compile(r"^(?:±|\+/-|\+-) ?")
EXAMPLES = "Write it as '5 %', '2 ppm', '1 dB', '5 % + 0.1 W' or '5 % of 10 W'."


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Parts of an error, each a size with its unit; `divisor` turns one into a standard deviation.

    A part in `%` is of what is read, one in `ppm` of a frequency, one in `dB` of a level.
    """

    parts: tuple[tuple[float, str], ...]
    divisor: float = LIMITS


def read_tolerance(text: str) -> Tolerance:
    """Return what is written of an instrument's accuracy.

    Raises:
        Unclear: a part is no size with a unit.

    >>> read_tolerance("2 ppm + 1 Hz").parts
    ((2.0, 'ppm'), (1.0, 'Hz'))
    >>> read_tolerance("5 % of 10 W").parts
    ((0.5, 'W'),)
    >>> read_tolerance("0.4 dB (k=2)").divisor
    2.0
    """
    told = tidy(text)
    divisor = LIMITS
    if matched := COVERAGE.search(told):
        told, divisor = told[: matched.start()], figure(matched[1]).meanings[0]
        if divisor <= 0.0:
            raise Unclear("a coverage factor of 0", "It is 2 as a rule: write (k=2).")
    return Tolerance(tuple(_part(SIGNS.sub("", one.strip())) for one in _split(told)), divisor)


def _split(text: str) -> list[str]:
    return re.split(r" \+ |(?<=[^ ])\+(?=\d)| plus | and ", SIGNS.sub("", text))


def _part(text: str) -> tuple[float, str]:
    """Return the size and unit of one part."""
    if matched := OF_RANGE.fullmatch(text):
        share, whole = figure(matched[1]).meanings[0], _part(matched[2])
        return share / 100.0 * whole[0], whole[1]
    number = figure(text)
    unit = spoken(number.rest) if number.rest else None
    if unit is None:
        raise Unclear(f"'{text}' without a unit that is known here", EXAMPLES)
    if len(number.meanings) > 1 or number.meanings[0] < 0.0:
        raise Unclear(f"'{text}' as an error", EXAMPLES)
    return number.meanings[0], unit.symbol


def standard_uncertainty(
    tolerance: Tolerance, value: float, unit: str, meter: str, carrier_mhz: float
) -> float:
    """Return the standard uncertainty of a reading, in its own unit.

    Args:
        tolerance: of the instrument.
        value: what was read.
        unit: of the reading.
        meter: the unit the instrument reads; `ppm` for an error of the frequency `carrier_mhz`.
        carrier_mhz: which frequency is read, or on which.

    Raises:
        Unclear: a part of the tolerance has nothing to do with such a reading.

    >>> round(standard_uncertainty(Tolerance(((5.0, "%"),)), 4.0, "W", "W", 27.0), 4)
    0.1155
    """
    own, reading = unit_of(meter), unit_of(unit)
    assert own is not None, meter
    assert reading is not None, unit
    if meter == "ppm":
        sizes = [_of_frequency(part, reading, carrier_mhz) for part in tolerance.parts]
        return hypot(*sizes) / tolerance.divisor
    # A picture on a scope goes with the square root of the power it stands for.
    is_squared = own.base.startswith("V") and reading.base == "W"
    level = vpp_from_watt(abs(value) * reading.factor) / own.factor if is_squared else abs(value)
    if own.base == reading.base:
        level = abs(value) * (reading.factor / own.factor)
    error = hypot(*(_of_level(part, level, own) for part in tolerance.parts)) / tolerance.divisor
    if is_squared:
        return 2.0 * abs(value) * error / level if level > 0.0 else 0.0
    return error * (own.factor / reading.factor)


def _of_frequency(part: tuple[float, str], reading: Unit, mhz: float) -> float:
    """Return a part of a counter's error in the unit of the reading."""
    size, unit = part
    given = unit_of(unit)
    if unit == "ppm":
        return size * mhz / reading.factor
    if given is None or given.base != "Hz":
        raise _foreign(part, "a counter", "Write it as '2 ppm' or '2 ppm + 10 Hz'.")
    return size * (given.factor / reading.factor)


def _of_level(part: tuple[float, str], level: float, own: Unit) -> float:
    """Return a part of an error in the unit of the instrument."""
    size, unit = part
    if unit == "%":
        return size / 100.0 * level
    if unit == "dB" and own.base != "dB":
        tens = 10.0 if own.base == "W" else 20.0
        return float(level * (10.0 ** (size / tens) - 1.0))
    given = unit_of(unit)
    turned = convert(size, given, own) if given is not None and given.base == own.base else None
    if turned is None:
        raise _foreign(part, f"what reads {own.symbol}", EXAMPLES)
    return turned


def _foreign(part: tuple[float, str], instrument: str, remedy: str) -> Unclear:
    return Unclear(f"{shown(part[0])} {part[1]} for {instrument}", remedy)
