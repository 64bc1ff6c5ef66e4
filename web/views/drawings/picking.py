"""Which drawing goes with a check: told by its instruments, mode, unit, lid and place."""

import re
from collections.abc import Callable

from engine.diagnosis.model import CheckText
from web.views.drawings import aerials, listening, meters, screens, trying
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
BRIDGED = re.compile(
    r"\b(bridged?|bypass(es)?|lift(ed)?|electrolytics?|coupling|capacitors?|lit by hand)\b", re.I
)
EXCHANGED = re.compile(r"\b(exchanged?|swap|in place of|another|known good|replaced)\b", re.I)
TURNED = re.compile(r"\b(preset|turn(ed)?|peaks?|threshold|trap|seal)\b", re.I)
PRESSED = re.compile(r"\b(press|pressed|tap|tapped|tapping|joints of|spray)\b", re.I)
BRIDGED_PART = re.compile(r"\b(coupling|capacitors?|electrolytics?)\b.*\b(bridged|lifted)\b", re.I)
ONE_END = re.compile(r"\b(lift(ed)?|unsolder|one (end|leg)|free)\b", re.I)
STORED = re.compile(r"\b(backup cell|minus sign|under load)\b", re.I)
RESTING = re.compile(r"\bcurrent (warm|cold)\b", re.I)
TOUCHED = re.compile(r"\b(touch|wire (at|test))\b", re.I)
SOCKET = re.compile(r"\b(aerial|antenna) socket\b", re.I)


def picture_of(check: CheckText) -> Drawing | None:
    """Return the drawing that fits a check; None where eyes and ears alone are needed."""
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


def _titled(pattern: re.Pattern[str]) -> Callable[[CheckText], bool]:
    """Return what holds for a step in an open set that the title calls so."""
    return lambda c: bool(c.needs) and c.lid == "off" and bool(pattern.search(c.title))


def _unpowered(check: CheckText) -> bool:
    """Say whether a meter may be read on parts without power."""
    return has_meter(check) and check.unit is None and check.mode in ("off", "any")


def _running(check: CheckText) -> bool:
    return has_meter(check) and check.mode in ("receive", "transmit")


def _stored(check: CheckText) -> bool:
    """Say whether volts are read in a set that is off: those of a cell of its own, or a plug."""
    return _says(check, STORED)


def _lost(check: CheckText) -> bool:
    """Say whether volts are read along a way that a current takes."""
    return has_meter(check) and check.mode != "off" and _says(check, JOINT)


INSTRUMENTS: tuple[Rule, ...] = (
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
# What is left is told by what is done, and only then by the instrument that is read.
STEPS: tuple[Rule, ...] = (
    (lambda c: _with("spectrum-analyser")(c) and _at_load(c), screens.ANALYSER),
    (_with("spectrum-analyser"), screens.ANALYSER_INSIDE),
    (lambda c: _with("bench-supply", "tools")(c) and c.mode == "off", screens.LEAK),
    (lambda c: _with("second-set")(c) and "lamp" in c.title, listening.LAMP_LOOP),
    (lambda c: _lost(c) and c.lid == "off", screens.DROP),
    (_titled(EXCHANGED), trying.EXCHANGE),
    (_titled(TURNED), trying.TURN),
    (lambda c: _with("tools")(c) and _titled(BRIDGED)(c), trying.BRIDGE),
    (_titled(BRIDGED_PART), trying.BRIDGE),
    (_titled(PRESSED), trying.PRESS),
    (_titled(TOUCHED), trying.WIRE),
    (lambda c: _with("oscilloscope")(c) and c.lid == "off", aerials.SCOPE),
    (lambda c: _with("oscilloscope")(c) and c.mode != "transmit", screens.SCOPE_SUPPLY),
    (_with("oscilloscope"), screens.SCOPE_LOAD),
    (_with("frequency-counter"), screens.COUNTER_LOOP),
    (_with("audio-voltmeter"), listening.AUDIO),
    (_with("test-lamp"), listening.TEST_LAMP),
    (lambda c: _with("bench-supply")(c) and not has_meter(c), listening.BENCH_SUPPLY),
    (lambda c: has_meter(c) and (c.unit == "A" or _titled(RESTING)(c)), meters.CURRENT),
    (lambda c: has_meter(c) and _says(c, ALTERNATING), screens.ALTERNATING),
    (_lost, screens.DROP),
    (lambda c: has_meter(c) and c.lid == "on" and _says(c, SUPPLY), meters.SUPPLY),
    (lambda c: _running(c) and c.lid == "on" and "socket" in c.where, listening.CONTACT),
    (lambda c: _unpowered(c) and c.lid == "off" and _says(c, ONE_END), screens.LIFTED),
    (lambda c: _unpowered(c) and _says(c, DIODE), meters.DIODE),
    (lambda c: _unpowered(c) and c.mode == "off" and not _stored(c), meters.OHMS),
    (lambda c: has_meter(c) and c.lid == "off", meters.POINT),
    (has_meter, meters.SUPPLY),
    (_with("spare-loudspeaker"), listening.SPEAKER),
    (_with("second-set"), listening.SECOND_SET),
    (lambda c: _with("tools")(c) and _says(c, SUPPLY) and c.mode != "off", trying.PAIR),
    (_with("tools"), trying.BY_HAND),
)
RULES = INSTRUMENTS + STEPS
