"""Units, their prefixes, the words people write for them, and what turns one into another."""

import re
from collections.abc import Callable
from dataclasses import dataclass

from engine.radio import power

PREFIXES = {"M": 1e6, "k": 1e3, "": 1.0, "m": 1e-3, "u": 1e-6, "n": 1e-9, "p": 1e-12}
BASES = ("Vpp", "Vrms", "Vpk", "V", "A", "W", "ohm", "Hz", "F")
PLAIN = ("ppm", "dB", "SWR", "%", "dBm", "dBuV")
NEVER_NEGATIVE = {
    "W": "a power is never negative; a small one has a negative number of dBm",
    "Vpp": "a peak-to-peak voltage is never negative",
    "Vrms": "an rms voltage is never negative",
    "ohm": "a resistance is never negative",
}

# (unit written, unit wanted) -> what turns one into the other, both in base units.
CONVERSIONS: dict[tuple[str, str], Callable[[float], float]] = {
    ("dBm", "W"): power.watt_from_dbm,
    ("Vpp", "W"): power.watt_from_vpp,
    ("Vrms", "W"): power.watt_from_vrms,
    ("Vpk", "W"): lambda peak: power.watt_from_vpp(2.0 * peak),
    ("V", "W"): power.watt_from_vrms,
    ("dBm", "V"): lambda dbm: power.microvolt_from_dbm(dbm) * 1e-6,
    ("dBuV", "V"): lambda dbuv: power.microvolt_from_dbuv(dbuv) * 1e-6,
    ("V", "Vpp"): lambda vrms: vrms * 2.0 * 2.0**0.5,
    ("Vrms", "Vpp"): lambda vrms: vrms * 2.0 * 2.0**0.5,
    ("Vpk", "Vpp"): lambda peak: 2.0 * peak,
    ("Vrms", "V"): lambda vrms: vrms,
}
IN_50_OHM = {("Vpp", "W"), ("Vrms", "W"), ("Vpk", "W"), ("V", "W"), ("dBm", "V")}

_PREFIX_WORDS = {
    "mega": "M", "meg": "M", "kilo": "k", "kil": "k", "milli": "m", "micro": "u", "nano": "n",
    "pico": "p", "": "",
}  # fmt: skip
_BASE_WORDS = {
    "volt": "V", "ampere": "A", "amp": "A", "watt": "W", "ohm": "ohm", "hertz": "Hz", "farad": "F",
}  # fmt: skip
_SPOKEN = re.compile(
    f"({'|'.join(_PREFIX_WORDS)})[- ]?({'|'.join(_BASE_WORDS)})s?( .*)?", re.IGNORECASE
)
_LONG = (
    (re.compile(r"^parts per million$", re.IGNORECASE), "ppm"),
    (re.compile(r"^per ?cent$", re.IGNORECASE), "%"),
    (re.compile(r"^(?:decibels?|dB SINAD)$", re.IGNORECASE), "dB"),
    (re.compile(r"^vswr$", re.IGNORECASE), "SWR"),
    (re.compile(r"(?<=V) ?(?:p-p|pk-pk|pp|peak[- ]to[- ]peak)$", re.IGNORECASE), "pp"),
    (re.compile(r"(?<=V) ?(?:rms|eff)$", re.IGNORECASE), "rms"),
    (re.compile(r"(?<=V) ?(?:peak|pk|p)$", re.IGNORECASE), "pk"),
)


@dataclass(frozen=True, slots=True)
class Unit:
    """A base unit and the factor of its prefix."""

    base: str
    factor: float
    symbol: str


def unit_of(text: str) -> Unit | None:
    """Return a unit with its prefix; small slips of capitals are forgiven where nothing clashes.

    >>> unit_of("mVpp")
    Unit(base='Vpp', factor=0.001, symbol='mVpp')
    """
    cleaned = text.replace("µ", "u").replace("μ", "u").replace("Ω", "ohm").replace("Ω", "ohm")
    for plain in PLAIN:
        if cleaned.lower() == plain.lower():
            return Unit(plain, 1.0, plain)
    for base in BASES:
        if not cleaned.lower().endswith(base.lower()):
            continue
        prefix = cleaned[: len(cleaned) - len(base)]
        if prefix == "K":
            prefix = "k"
        if prefix == "m" and base == "Hz":
            prefix = "M"  # nobody measures millihertz in a transceiver
        if prefix in PREFIXES:
            return Unit(base, PREFIXES[prefix], f"{prefix}{base}")
    return None


def spoken(text: str) -> Unit | None:
    """Return a unit as people say it, in letters or in words.

    >>> spoken("kilohertz"), spoken("volts peak to peak")
    (Unit(base='Hz', factor=1000.0, symbol='kHz'), Unit(base='Vpp', factor=1.0, symbol='Vpp'))
    """
    if unit := unit_of(text):
        return unit
    short = text
    if matched := _SPOKEN.fullmatch(text):
        prefix, base = _PREFIX_WORDS[matched[1].lower()], _BASE_WORDS[matched[2].lower()]
        short = f"{prefix}{base}{matched[3] or ''}"
    for pattern, symbol in _LONG:
        short = pattern.sub(symbol, short)
    return unit_of(short)


def is_unit(text: str) -> bool:
    """Whether `text` is a unit that readings can have."""
    return unit_of(text) is not None


def convert(value: float, given: Unit, wanted: Unit) -> float | None:
    """Return a value in another unit; None where nothing turns one into the other."""
    if given.base == wanted.base:
        # Divided as one step: 1000 Hz is 1 kHz, not 0.9999999 kHz.
        return value * (given.factor / wanted.factor)
    conversion = CONVERSIONS.get((given.base, wanted.base))
    return conversion(value * given.factor) / wanted.factor if conversion else None
