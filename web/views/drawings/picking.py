"""Which drawing goes with a check: told by its instruments, mode, unit, lid and place."""

import re
from collections.abc import Callable

from engine.diagnosis.model import CheckText
from web.views.drawings import aerials, meters
from web.views.drawings.shapes import Drawing

Rule = tuple[Callable[[CheckText], bool], Drawing]
AMPS = ("A", "mA", "uA")
SUPPLY = re.compile(r"\b(supply (plug|lead|socket)|battery|lead posts?|cells?|lighter)\b", re.I)
FUSE = re.compile(r"\bfuses?\b", re.I)
PLUG = re.compile(
    r"\bmicrophone('s)? plug\b|\bplug of the microphone\b|\bmicrophone contacts\b", re.I
)
VOLTS = re.compile(r"\bvolts?\b|\bvoltages?\b|\b[\d.]+ ?m?V\b|\bDC\b|V DC", re.I)
OHMS = re.compile(
    r"\bk?ohms?\b|\bohmmeter\b|\bohm-meter\b|\bkilohms\b|\bresistance\b|\bcontinuity\b", re.I
)
SERIES = re.compile(r"\b(amps?|amperes?|milliamps?|current|mA)\b|\bin series with the\b", re.I)
ALTERNATING = re.compile(r"\bAC (volts|range|V)\b|\bAC on\b")
JOINT = re.compile(r"\bvolts? lost\b|\bleft in a joint\b|\beach side of\b", re.I)
DIODE = re.compile(r"\bdiode (test|range|sign)\b", re.I)
LISTENED = {"dummy-load", "second-set", "spare-microphone", "tools"}
SOCKET = re.compile(r"\b(aerial|antenna) socket\b", re.I)


def picture_of(check: CheckText) -> Drawing | None:
    """Return the drawing that fits a check, or None: better none than a wrong one."""
    return next((drawing for holds, drawing in RULES if holds(check)), None)


def has_meter(check: CheckText) -> bool:
    """Say whether a multimeter is read."""
    return "multimeter" in check.needs


def _with(*names: str) -> Callable[[CheckText], bool]:
    return lambda check: set(names) <= set(check.needs)


def _at_socket(check: CheckText) -> bool:
    return bool(SOCKET.search(f"{check.where} {check.how}")) or check.lid == "on"


def _at_load(check: CheckText) -> bool:
    return check.lid == "on" or "load" in check.where


def _alone(check: CheckText) -> bool:
    """Say whether the multimeter is the only thing that is read."""
    return has_meter(check) and not set(check.needs) - {"multimeter", "tools", "dummy-load"}


def _says(check: CheckText, pattern: re.Pattern[str]) -> bool:
    return bool(pattern.search(f"{check.title} {check.where} {check.how}"))


def _current(check: CheckText) -> bool:
    return _alone(check) and check.unit in AMPS


def _volts(check: CheckText) -> bool:
    """Say whether volts are read: by the unit, or by the words while the set has power."""
    if not _alone(check) or (check.unit or "V") not in ("V", "mV"):
        return False
    mixed = any(_says(check, each) for each in (OHMS, SERIES, DIODE))
    if _says(check, ALTERNATING) or _says(check, JOINT):
        return False
    return check.unit is not None or (check.mode != "off" and _says(check, VOLTS) and not mixed)


def _ohms(check: CheckText) -> bool:
    """Say whether a part without power is read in ohms."""
    if not _alone(check) or check.mode != "off" or (check.unit or "ohm") not in ("ohm", "kohm"):
        return False
    mixed = _says(check, VOLTS) or _says(check, SERIES) or _says(check, DIODE)
    return check.unit is not None or (_says(check, OHMS) and not mixed)


def _diode(check: CheckText) -> bool:
    is_off = _alone(check) and check.mode == "off" and check.unit is None
    return is_off and _says(check, DIODE) and not _says(check, SERIES)


def _look(pattern: re.Pattern[str]) -> Callable[[CheckText], bool]:
    """Return what holds for a look, without instruments, at a thing that the title names."""
    return lambda c: not c.needs and c.kind != "question" and bool(pattern.search(c.title))


RULES: tuple[Rule, ...] = (
    (lambda c: _with("signal-generator")(c) and _at_socket(c), aerials.GENERATOR),
    (_with("signal-generator"), aerials.GENERATOR_INSIDE),
    (_with("deviation-meter", "dummy-load"), aerials.DEVIATION),
    (lambda c: _with("rf-power-meter")(c) and c.unit == "SWR", aerials.SWR),
    (_with("rf-power-meter", "dummy-load"), aerials.POWER),
    (lambda c: _with("rf-power-meter")(c) and c.lid == "on", aerials.SWR),
    (_with("rf-probe"), aerials.RF_PROBE),
    (lambda c: _with("frequency-counter", "dummy-load")(c) and _at_load(c), aerials.COUNTER),
    (lambda c: _with("frequency-counter")(c) and c.lid == "off", aerials.COUNTER_INSIDE),
    (lambda c: _with("oscilloscope")(c) and c.lid == "off" and not has_meter(c), aerials.SCOPE),
    (_current, meters.CURRENT),
    (lambda c: _volts(c) and c.lid == "on" and _says(c, SUPPLY), meters.SUPPLY),
    (lambda c: _volts(c) and c.lid == "off", meters.POINT),
    (_diode, meters.DIODE),
    (_ohms, meters.OHMS),
    (lambda c: _with("dummy-load")(c) and set(c.needs) <= LISTENED, aerials.LOAD),
    (_look(FUSE), meters.FUSE),
    (_look(PLUG), meters.MICROPHONE),
)
