"""How good the instruments of a kit are, as it was typed."""

from dataclasses import replace

from engine.diagnosis.case import Kit
from engine.errors import UnknownReading
from engine.radio.figures import Unclear
from engine.radio.tolerance import EXAMPLES, read_tolerance

COUNTER = "frequency-counter"


def with_accuracy(kit: Kit, instrument: str, said: str) -> Kit:
    """Return the kit with the accuracy of an instrument, such as `5 %`; without one for nothing.

    Raises:
        UnknownReading: it is no size with a unit.
    """
    told = {name: each for name, each in kit.accuracies if name != instrument}
    if said.strip():
        try:
            read_tolerance(said)
        except Unclear as error:
            place, remedy = f"accuracy of '{instrument}'", error.remedy or EXAMPLES
            raise UnknownReading(place, str(error), "a size with its unit", remedy) from None
        told[instrument] = said.strip()
    return replace(kit, accuracies=tuple(sorted(told.items())))


def accuracies_of(kit: Kit) -> dict[str, str]:
    """Return what was told of each instrument; of the counter its timebase, if nothing more."""
    counter = {COUNTER: f"{kit.counter_ppm:g} ppm"} if kit.counter_ppm else {}
    return counter | dict(kit.accuracies)
