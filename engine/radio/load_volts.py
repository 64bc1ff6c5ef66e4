"""A power told in watts or dBm where the oscilloscope shows volts across the load."""

from engine.radio.figures import figure, three, tidy
from engine.radio.power import vpp_from_watt, watt_from_vpp
from engine.radio.quantities import Asked, Understood, read_quantity
from engine.radio.units import spoken, unit_of

POWERS = ("W", "dBm")


def read_load_volts(text: str, asked: Asked) -> Understood | None:
    """Return watts or dBm as volts peak to peak across 50 ohm; None of anything else.

    Only a check of the quantity power may use it: elsewhere in a set no volts stand across 50 ohm.

    Raises:
        Unclear: it is no number, or a negative power.

    >>> read_load_volts("12 W", Asked("Vpp", "power")).words
    '12 W across 50 ohm is 69.3 Vpp'
    """
    wanted, rest = unit_of(asked.unit), figure(tidy(text)).rest
    given = spoken(rest) if rest else None
    if wanted is None or wanted.base != "Vpp" or given is None or given.base not in POWERS:
        return None
    span = None
    if asked.span is not None:
        low, high = (watt_from_vpp(end * wanted.factor) for end in asked.span)
        span = (low, high)
    watts = read_quantity(text, Asked("W", "power", span))
    volts = vpp_from_watt(watts.value) / wanted.factor
    said = watts.how or watts.shown
    return Understood(volts, f"{three(volts)} {asked.unit}", f"{said} across 50 ohm")
