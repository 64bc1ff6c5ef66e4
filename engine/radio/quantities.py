"""Numbers as people write them at the bench: `3.5 W`, `36 dBm`, `40 Vpp`, `-300 Hz`, `0,4`."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from math import isfinite

from engine.radio import power

PREFIXES = {"M": 1e6, "k": 1e3, "": 1.0, "m": 1e-3, "u": 1e-6, "n": 1e-9, "p": 1e-12}
BASES = ("Vpp", "Vrms", "V", "A", "W", "ohm", "Hz", "F")
PLAIN = ("ppm", "dB", "SWR", "%", "dBm", "dBuV")

# (unit written, unit wanted) -> what turns one into the other, both in base units.
CONVERSIONS: dict[tuple[str, str], Callable[[float], float]] = {
    ("dBm", "W"): power.watt_from_dbm,
    ("Vpp", "W"): power.watt_from_vpp,
    ("Vrms", "W"): power.watt_from_vrms,
    ("V", "W"): power.watt_from_vrms,
    ("dBm", "V"): lambda dbm: power.microvolt_from_dbm(dbm) * 1e-6,
    ("dBuV", "V"): lambda dbuv: power.microvolt_from_dbuv(dbuv) * 1e-6,
    ("V", "Vpp"): lambda vrms: vrms * 2.0 * 2.0**0.5,
    ("Vrms", "Vpp"): lambda vrms: vrms * 2.0 * 2.0**0.5,
    ("Vrms", "V"): lambda vrms: vrms,
}
NUMBER = re.compile(r"^\s*([-+]?\d+(?:[.,]\d+)?(?:[eE][-+]?\d+)?)\s*(.*?)\s*$")


@dataclass(frozen=True, slots=True)
class Unit:
    """A base unit and the factor of its prefix."""

    base: str
    factor: float


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
    matched = NUMBER.match(text.replace("−", "-"))
    if not matched:
        raise ValueError(f"'{text}' does not begin with a number")
    value = float(matched[1].replace(",", "."))
    if not isfinite(value):
        raise ValueError(f"'{text}' is too large a number")
    wanted, written = _unit(unit), matched[2]
    assert wanted is not None, f"knowledge uses the unknown unit {unit}"
    if not written or (unit == "SWR" and written in {":1", ": 1", "to 1"}):
        return value
    given = _unit(written)
    if given is None:
        raise ValueError(f"'{written}' is no unit that is known here")
    return _convert(value, given, wanted, unit)


def is_unit(text: str) -> bool:
    """Whether `text` is a unit that readings can have."""
    return _unit(text) is not None


def _convert(value: float, given: Unit, wanted: Unit, unit: str) -> float:
    if given.base == wanted.base:
        # Divided as one step: 1000 Hz is 1 kHz, not 0.9999999 kHz.
        return value * (given.factor / wanted.factor)
    conversion = CONVERSIONS.get((given.base, wanted.base))
    if conversion is None:
        raise ValueError(f"{given.base} cannot be turned into {unit}")
    return conversion(value * given.factor) / wanted.factor


def _unit(text: str) -> Unit | None:
    """Return a unit with its prefix; small slips of capitals are forgiven where nothing clashes."""
    cleaned = text.replace("µ", "u").replace("μ", "u").replace("Ω", "ohm").replace("Ω", "ohm")
    for plain in PLAIN:
        if cleaned.lower() == plain.lower():
            return Unit(plain, 1.0)
    for base in BASES:
        if not cleaned.lower().endswith(base.lower()):
            continue
        prefix = cleaned[: len(cleaned) - len(base)]
        if prefix == "K":
            prefix = "k"
        if prefix == "m" and base == "Hz":
            prefix = "M"  # nobody measures millihertz in a transceiver
        if prefix in PREFIXES:
            return Unit(base, PREFIXES[prefix])
    return None
