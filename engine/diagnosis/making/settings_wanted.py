"""What must hold once an adjustment is set, as numbers: out of the plan, figures and checks."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import log10
from typing import Any

from engine.diagnosis.making.showing import accuracy_of, read_with
from engine.diagnosis.settings import InstrumentError, WantedText
from engine.knowledge.hanging_frequencies import FrequencyTies, channel_of, tolerance_hz
from engine.knowledge.schema import Check
from engine.knowledge.setting import Wanted
from engine.knowledge.tables import Instrument
from engine.radio.figures import shown
from engine.radio.quantities import read_number
from engine.radio.units import convert, unit_of

BEST = {
    "peak": "the highest reading",
    "null": "the lowest reading",
    "dip": "the lowest reading of the dip",
    "zero": "zero",
}
DOWNWARDS = ("null", "dip")
SHARES = {"a fifth": 0.2, "a tenth": 0.1}  # of the larger of two readings
LEVELS = {"W": 10.0, "V": 20.0, "Vpp": 20.0, "Vrms": 20.0, "dB": 1.0}
LESS_IS_MORE = "sensitivity"  # the better receiver needs the smaller signal


@dataclass(frozen=True, slots=True)
class Read:
    """What an adjustment is read with: a check, or the first instrument that shows a number."""

    name: str  # of the adjustment
    check_id: str
    check: Check | None
    needs: tuple[str, ...]
    instruments: Mapping[str, Instrument]
    ties: FrequencyTies

    def errors(self, unit: str = "") -> tuple[InstrumentError, ...]:
        """Return the usual error of what is read, in a unit that turns into `unit`."""
        if self.check is not None and self.check.unit is not None:
            if unit and not _turns(self.check.unit, unit):
                return ()
            name, error = (
                read_with(self.check, self.instruments),
                accuracy_of(self.check, self.instruments),
            )
            return (InstrumentError(name, self.check.unit, *error),)
        for name in self.needs:
            rows = tuple(
                InstrumentError(name, each, known.percent, known.fixed)
                for each, known in self.instruments[name].accuracy.items()
                if not unit or _turns(each, unit)
            )
            if rows:
                return rows if not unit else rows[:1]
        return ()


def wanted_texts(read: Read, wanted: Iterable[Wanted]) -> Iterator[WantedText]:
    """Yield what is wanted of an adjustment, in its order."""
    for each in wanted:
        if each.frequency is not None:
            yield _frequency(read, each)
        elif each.value is not None or each.between is not None:
            yield _number(read, each)
        elif each.best is not None:
            yield _best(read, each)
        else:
            yield _looked_at(read, each.at, each.looks or "")


def _number(read: Read, wanted: Wanted) -> WantedText:
    """Return a number that is aimed at, or two ends."""
    if wanted.between is not None:
        unit = wanted.between[0].partition(" ")[2]
        low, high = (read_number(end, unit) for end in wanted.between)
        said = f"from {wanted.between[0]} to {wanted.between[1]}"
        return _held(read, wanted, said, unit=unit, low=low, high=high)
    value, tolerance = str(wanted.value), str(wanted.tolerance)
    unit = value.partition(" ")[2]
    aim = read_number(value, unit)
    is_share = tolerance.endswith("%") and unit != "%"
    room = aim * read_number(tolerance, "%") / 100.0 if is_share else read_number(tolerance, unit)
    said = f"{value} ± {tolerance}"
    return _held(read, wanted, said, unit=unit, aim=aim, **_ends(aim, room))


def _frequency(read: Read, wanted: Wanted) -> WantedText:
    """Return a frequency of the plan, as an error where the check reads errors."""
    frequency, plan = read.ties.wanted(read.name, wanted), read.ties.plan
    assert frequency is not None, f"{read.name}: checked knowledge"
    assert plan is not None
    hz = float(frequency.hz(plan))
    mhz, room_hz = round(hz) / 1e6, tolerance_hz(wanted, hz)
    said = f"{mhz:.6f} MHz ± {wanted.tolerance}"
    if read.check is None or read.check.quantity != "frequency-error":
        room = room_hz / 1e6
        return _held(read, wanted, said, unit="MHz", aim=mhz, right_mhz=mhz, **_ends(mhz, room))
    unit = str(read.check.unit)
    factor = unit_of(unit)
    assert factor is not None
    room = room_hz / mhz if unit == "ppm" else room_hz / factor.factor
    held = _held(read, wanted, said, unit=unit, aim=0.0, right_mhz=mhz, **_ends(0.0, room))
    if read.check.frequency not in (None, "own"):
        channel = f"@{channel_of(plan, wanted.at)}"
        return replace(held, check=held.check + channel)
    return held


def _ends(aim: float, room: float) -> dict[str, float]:
    """Return both ends, without noise in their last digits."""
    return {"low": float(shown(aim - room)), "high": float(shown(aim + room))}


def _held(read: Read, wanted: Wanted, said: str, **ends: Any) -> WantedText:
    errors = read.errors(ends["unit"])
    own = read.check is not None and bool(errors)
    return WantedText(
        wanted.at,
        said,
        "number",
        limit=wanted.limit or "",
        check=read.check_id if own else "",
        errors=errors,
        **ends,
    )


def _best(read: Read, wanted: Wanted) -> WantedText:
    """Return a best place: by a reading before and after, or by several that are alike."""
    best, errors = str(wanted.best), read.errors()
    if best == "even":
        return _even(read, wanted, errors)
    said = ", ".join(part for part in (BEST[best], wanted.within) if part)
    if best == "zero" or not errors:
        return _looked_at(read, wanted.at, said)
    flips = read.check is not None and read.check.quantity == LESS_IS_MORE
    return WantedText(
        wanted.at,
        said,
        "best",
        errors[0].unit,
        goes_down=(best in DOWNWARDS) != flips,
        check=read.check_id,
        errors=errors,
    )


def _even(read: Read, wanted: Wanted, errors: tuple[InstrumentError, ...]) -> WantedText:
    """Return several readings that are alike, where the words say how far apart they may be."""
    spread = _spread_db(wanted.within, errors[0].unit) if errors else None
    if spread is None:
        return _looked_at(read, wanted.at, wanted.within or "alike")
    said = f"alike, within {wanted.within}"
    return WantedText(wanted.at, said, "spread", errors[0].unit, spread_db=spread, errors=errors)


def _looked_at(read: Read, at: str, said: str) -> WantedText:
    """Return what is answered by an outcome of the check, or by yes."""
    if read.check is not None and read.check.unit is None:
        return WantedText(at, said, "outcome", check=read.check_id)
    return WantedText(at, said, "yes")


def _spread_db(within: str, unit: str) -> float | None:
    """Return how far apart readings may lie; None where the words give no number for them."""
    base = unit_of(unit)
    times = LEVELS.get(base.base) if base else None
    if times is None:
        return None
    if within in SHARES:
        return -times * log10(1.0 - SHARES[within]) if times > 1.0 else None
    number, _, spoken = within.partition(" ")
    return read_number(number, "dB") if spoken == "dB" else None


def _turns(given: str, wanted: str) -> bool:
    one, other = unit_of(given), unit_of(wanted)
    return one is not None and other is not None and convert(1.0, one, other) is not None
