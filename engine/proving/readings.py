"""What was read at a point, as a value with its standard uncertainty."""

from collections.abc import Mapping
from dataclasses import dataclass

from engine.errors import UnknownReading, suggest
from engine.proving.sheet import Meter, Point, ProofSheet
from engine.radio.figures import Unclear
from engine.radio.quantities import Asked
from engine.radio.tolerance import Tolerance, read_tolerance, standard_uncertainty
from engine.radio.understanding import understand

YES = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}
LEAST = 1e-9  # a power that cannot be seen, beside one that can


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed for a point: the reading, and the instrument if it is not the usual one."""

    said: str
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """A value in the unit of its point with its standard uncertainty; or what was seen.

    `shown` is how it was understood. `is_usual` says that the accuracy is the usual one of such
    an instrument and was not told.
    """

    point: str
    said: str
    shown: str
    value: float = 0.0
    sd: float = 0.0
    is_seen: bool | None = None
    instrument: str = ""
    accuracy: str = ""
    is_usual: bool = False


def enter(sheet: ProofSheet, name: str, typed: Typed, accuracies: Mapping[str, str]) -> Reading:
    """Return what was typed for a point as a reading.

    Args:
        sheet: the proof of the set.
        name: the point.
        typed: what stands in its row.
        accuracies: by instrument, such as `5 %`; the usual one where nothing is told.

    Raises:
        UnknownReading: no such point or instrument, no number, or one that cannot be.
    """
    point = sheet.point(name)
    if point is None:
        known = [each.id for each in sheet.points]
        raise UnknownReading(name, f"'{name}'", "a point of this proof", suggest(name, known))
    if not point.unit:
        return _seen(point, typed.said)
    meter = _meter(point, typed.instrument)
    asked = Asked(point.unit, point.quantity or None, None, *_right(point))
    try:
        told = understand(typed.said, asked)
    except Unclear as error:
        remedy = error.remedy or f"Write a number in {point.unit}, or with its own unit."
        raise UnknownReading(name, str(error), f"a reading in {point.unit}", remedy) from None
    value = abs(told.value) if point.unit == "dB" else told.value
    if value < 0.0 and point.quantity != "frequency-error":
        remedy = "Look again at the reading and its sign."
        raise UnknownReading(name, told.shown, f"0 {point.unit} or more", remedy)
    if _is_megahertz(point, typed.said, value):
        remedy = f"Write '{typed.said} MHz' if that is what the counter shows."
        raise UnknownReading(name, f"an error of {told.shown}", f"an error in {point.unit}", remedy)
    sd, accuracy = uncertainty(point, meter, value, accuracies.get(meter.instrument, ""))
    shown = told.words if told.how else told.shown
    told_of = accuracy or usual_accuracy(meter)
    return Reading(
        name, typed.said, shown, value, sd, None, meter.instrument, told_of, not accuracy
    )


def _is_megahertz(point: Point, said: str, value: float) -> bool:
    """Say whether a bare number is hardly an error of frequency but what a counter shows."""
    is_bare = not any(letter.isalpha() for letter in said)
    near = abs(value - point.right_mhz) < 0.02 * point.right_mhz
    return is_bare and point.quantity == "frequency-error" and near


def _right(point: Point) -> tuple[float | None]:
    return (point.right_mhz if point.quantity == "frequency-error" else None,)


def _seen(point: Point, said: str) -> Reading:
    """Return what was seen at a point that is answered yes or no."""
    word = said.strip().lower()
    if word not in YES:
        raise UnknownReading(point.id, f"'{said}'", "yes or no", f"Answer: {point.asks}")
    return Reading(point.id, said, "yes" if YES[word] else "no", is_seen=YES[word])


def _meter(point: Point, instrument: str) -> Meter:
    """Return the instrument a reading was made with; the first of the point where none is told."""
    if not instrument:
        return point.meters[0]
    known = {meter.instrument: meter for meter in point.meters}
    if instrument not in known:
        expected = f"one of {', '.join(known)}"
        remedy = suggest(instrument, known)
        raise UnknownReading(point.id, f"'{instrument}'", expected, remedy)
    return known[instrument]


def uncertainty(point: Point, meter: Meter, value: float, told: str) -> tuple[float, str]:
    """Return the standard uncertainty of a value at a point, and the accuracy as it was told.

    Raises:
        UnknownReading: the accuracy is no size with a unit, or not one of such an instrument.
    """
    tolerance = Tolerance(((meter.percent, "%"), (meter.fixed, meter.unit)), 1.0)
    if meter.unit == "ppm":
        tolerance = Tolerance(((meter.fixed, "ppm"),), 1.0)
    try:
        tolerance = read_tolerance(told) if told else tolerance
        sd = standard_uncertainty(tolerance, value, point.unit, meter.unit, point.right_mhz)
    except Unclear as error:
        raise UnknownReading(
            f"accuracy of '{meter.instrument}'", str(error), "a size with its unit", error.remedy
        ) from None
    return sd, told


def usual_accuracy(meter: Meter) -> str:
    """Return the usual accuracy of an instrument in words, as two standard deviations."""
    parts = [
        f"{2.0 * size:g} {unit}"
        for size, unit in ((meter.percent, "%"), (meter.fixed, meter.unit))
        if size
    ]
    return " + ".join(dict.fromkeys(parts))
