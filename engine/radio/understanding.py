"""What somebody wrote, understood: by the ways in which its quantity can be told, or as a number.

A reading out of all reason is questioned with the slip that most likely made it so.
"""

from collections.abc import Callable, Iterator

from engine.radio.deviation import read_deviation
from engine.radio.figures import Figure, Unclear, figure, shown, tidy
from engine.radio.frequency_error import read_error
from engine.radio.load_volts import read_load_volts
from engine.radio.quantities import Asked, Understood, read_quantity
from engine.radio.ratios import read_depth, read_swr
from engine.radio.sinad import read_sensitivity
from engine.radio.smeter import LEVELS, refuse_s_units
from engine.radio.units import CONVERSIONS, spoken, unit_of

Way = Callable[[str, Asked], Understood | None]
WAYS: dict[str, Way] = {
    "am-depth": read_depth,
    "deviation": read_deviation,
    "frequency-error": read_error,
    "power": read_load_volts,
    "sensitivity": read_sensitivity,
    "swr": read_swr,
}
SLIPS = (-1.0, 0.1, 10.0, 1e-3, 1e3)  # leads swapped, a decimal point, a prefix
LIKELIEST = 2


def understand(text: str, asked: Asked) -> Understood:
    """Return the value of what was written, in the unit asked for, and how it was understood.

    Raises:
        Unclear: with a sentence that says what was not understood, and what to write instead.

    >>> understand("first null at 1040 Hz", Asked("kHz", "deviation")).shown
    '2.50 kHz'
    >>> understand("1:2", Asked("SWR", "swr")).value
    2.0
    """
    refuse_s_units(text, asked)
    way = WAYS.get(asked.quantity or "")
    if way is None and asked.unit in LEVELS:
        way = read_sensitivity  # any level may be told as EMF
    return (way(text, asked) if way else None) or read_quantity(text, asked)


def likely_slips(text: str, asked: Asked, right: tuple[float, float]) -> tuple[str, ...]:
    """Return what was likely meant by a reading outside of the span, likeliest first.

    `right` is the range of right readings, in the unit asked for: what lands there goes before
    all else.

    >>> likely_slips("36", Asked("W", "power", (0.0, 20.0)), (3.3, 4.5))
    ('3.6 W', '36 dBm, that is 3.98 W')
    """
    try:
        number = figure(tidy(text))
    except Unclear:
        return ()
    found = list(dict.fromkeys(_meant(number, asked)))
    low, high = right
    sound = [words for words, value in found if low <= value <= high]
    # A unit that was written on purpose is not lightly doubted.
    others = found[:1] if number.rest in ("", asked.unit) else []
    return tuple(sound[:LIKELIEST] or [words for words, _ in others])


def _meant(number: Figure, asked: Asked) -> Iterator[tuple[str, float]]:
    """Yield what would lie in the span: another power of ten, or another unit."""
    unit = spoken(number.rest) if number.rest else unit_of(asked.unit)
    if unit is None:
        return
    value, symbol = number.meanings[0], unit.symbol if number.rest else asked.unit
    tries = [f"{shown(value * slip)} {symbol}" for slip in SLIPS]
    if not number.rest and (unit.base == "W" or asked.unit in LEVELS):
        tries += [f"{shown(value)} {given}" for given, wanted in CONVERSIONS if wanted == unit.base]
    if not number.rest and asked.quantity == "deviation":
        tries.append(f"first null at {shown(value)} Hz")
    for written in tries:
        try:
            meant = understand(written, asked)
        except Unclear:
            continue
        if asked.allows(meant.value):
            yield written + (f", that is {meant.shown}" if meant.how else ""), meant.value
