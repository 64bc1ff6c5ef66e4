"""What was read while setting up, as a value with its standard uncertainty."""

from dataclasses import dataclass

from engine.diagnosis.case import Kit
from engine.diagnosis.frequencies.fitting import SD_OF_LIMIT
from engine.diagnosis.model import SetModel
from engine.diagnosis.settings import InstrumentError, WantedText
from engine.errors import UnknownReading
from engine.radio.figures import Unclear, figure, tidy
from engine.radio.quantities import Asked
from engine.radio.tolerance import read_tolerance, standard_uncertainty
from engine.radio.understanding import understand
from engine.radio.units import convert, spoken, unit_of
from engine.setting_up.sheet import Step, check_of

PPM = 1e-6


@dataclass(frozen=True, slots=True)
class Value:
    """A reading in `unit` with its standard uncertainty, 0 where nothing is known of it."""

    said: str
    value: float
    sd: float
    unit: str
    shown: str  # how it was understood


@dataclass(frozen=True, slots=True)
class Bench:
    """A model, and the kit that readings are made with."""

    model: SetModel
    kit: Kit


def read_value(bench: Bench, step: Step, wanted: WantedText, text: str) -> Value:
    """Return one reading of what is wanted of a step.

    A bare number is in the unit that the check, or else the instrument, shows; an absolute
    frequency may stand for its error. A number in another unit is turned into that of what is
    wanted, where that can be.

    Raises:
        UnknownReading: it is no number, or one in a unit that has nothing to do with this.
    """
    error = _error(wanted, text)
    unit = error.unit if error else wanted.unit
    check = check_of(bench.model, step.setting)
    quantity = check.quantity if check is not None and check.unit == unit else None
    carriers = bench.model.carriers_mhz if wanted.right_mhz is None else ()
    try:
        told = understand(text, Asked(unit, quantity, None, wanted.right_mhz, carriers))
        sd = _uncertainty(bench, wanted, error, told.value) if error else 0.0
    except Unclear as unclear:
        remedy = unclear.remedy or f"Write a number in {unit}, or with its own unit."
        raise UnknownReading(step.id, str(unclear), f"a reading in {unit}", remedy) from None
    if wanted.answer != "number" or unit == wanted.unit:
        return Value(text, told.value, sd, unit, told.words if told.how else told.shown)
    low, value, high = (_turned(told.value + move, unit, wanted.unit) for move in (-sd, 0.0, sd))
    return Value(text, value, (high - low) / 2.0, wanted.unit, told.words)


def read_values(bench: Bench, step: Step, wanted: WantedText, text: str) -> tuple[Value, ...]:
    """Return several readings, written with `;` or ` / ` between them.

    Raises:
        UnknownReading: fewer than two, or as `read_value` does.
    """
    parts = [part.strip() for part in text.replace(" / ", ";").split(";") if part.strip()]
    if len(parts) < 2:
        expected = "two readings or more, with ';' between them"
        remedy = f"Write one for each of: {wanted.at or 'the places'}; such as '3.1; 3.3'."
        raise UnknownReading(step.id, f"'{text}'", expected, remedy)
    return tuple(read_value(bench, step, wanted, part) for part in parts)


def _error(wanted: WantedText, text: str) -> InstrumentError | None:
    """Return the error of what shows the unit that was written; without one, the first."""
    try:
        written = spoken(figure(tidy(text)).rest)
    except Unclear:
        written = None
    for each in wanted.errors:
        known = unit_of(each.unit)
        if written is not None and known is not None and written.base == known.base:
            return each
    return wanted.errors[0] if wanted.errors else None


def _uncertainty(bench: Bench, wanted: WantedText, error: InstrumentError, value: float) -> float:
    """Return the standard uncertainty of a reading, in the unit of its error.

    What was told of an instrument goes before the counter of the kit, and that before the usual.
    """
    mhz = wanted.right_mhz or 0.0
    told = dict(bench.kit.accuracies).get(error.instrument, "")
    if told and error.unit == "ppm":
        return standard_uncertainty(read_tolerance(told), 0.0, "Hz", "ppm", mhz) / mhz
    if told:
        meter = "ppm" if mhz else error.unit
        return standard_uncertainty(read_tolerance(told), value, error.unit, meter, mhz)
    if mhz and bench.kit.counter_ppm is not None:
        ppm, unit = SD_OF_LIMIT * bench.kit.counter_ppm, unit_of(error.unit)
        assert unit is not None, error.unit
        return ppm if error.unit == "ppm" else ppm * mhz / unit.factor
    return error.percent / 100.0 * abs(value) + error.fixed


def _turned(value: float, given: str, wanted: str) -> float:
    one, other = unit_of(given), unit_of(wanted)
    assert one is not None, given
    assert other is not None, wanted
    turned = convert(value if one.base == other.base else max(value, 0.0), one, other)
    assert turned is not None, f"{given} and {wanted} go together in checked knowledge"
    return turned
