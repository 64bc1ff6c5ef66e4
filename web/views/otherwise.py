"""How else a reading can be come by: what may be typed into the field instead of a number."""

from xml.etree.ElementTree import Element

from engine.diagnosis.model import CheckText
from web.views.markup import h

# By quantity: who this helps, and what to do and type.
WAYS: dict[str, tuple[str, tuple[str, ...]]] = {
    "power": (
        "No power meter?",
        (
            "Oscilloscope with a x10 probe across the dummy load, no speech: type the voltage from "
            "top to bottom, such as 40 Vpp.",
            "It is worked out across 50 ohm. A meter in dBm will do as well: 36 dBm.",
        ),
    ),
    "deviation": (
        "No deviation meter?",
        (
            "Carrier null: a tone into the microphone, as loud as a loud voice; the carrier on an "
            "analyser. Start at 3 kHz and bring the tone down slowly until the carrier vanishes.",
            "Type the frequency of that tone: first null at 1040 Hz. Farther down it vanishes "
            "again, which counts too: 2nd null 453 Hz.",
        ),
    ),
    "swr": (
        "No SWR on the meter?",
        (
            "Two powers will do, forward and reflected: type 4 W / 0.44 W.",
            "Or type 2:1, or return loss 9.5 dB.",
        ),
    ),
    "sensitivity": (
        "Generator marked otherwise?",
        (
            "Type 12 dB SINAD at 0.3 uV, or the level in dBm or dBuV.",
            "A generator marked in EMF shows twice the voltage across 50 ohm: type 0.6 uV emf, and "
            "it is halved.",
        ),
    ),
    "am-depth": (
        "No modulation meter?",
        (
            "Oscilloscope across the dummy load, a steady tone: type the largest and the smallest "
            "height of the picture, such as max 74 min 6 Vpp, or 74/6.",
        ),
    ),
}
OF_A_CRYSTAL = "Type what the counter shows, with its unit: {mhz:.6f} MHz. The error is worked out."
OF_A_CHANNEL = "Type what the counter shows, and the channel: {mhz:.5f} MHz on channel {channel}."
IN_PPM = "Or the error itself: -300 Hz, +1.2 kHz, +9.8 ppm."


def otherwise(check: CheckText, carriers: tuple[tuple[int, float], ...] = ()) -> Element | None:
    """Return a short help to be opened below the field; nothing where there is only one way."""
    if check.quantity == "frequency-error":
        return _opened("Counter in MHz?", _by_counter(check, carriers))
    way = WAYS.get(check.quantity or "")
    return _opened(*way) if way else None


def _by_counter(check: CheckText, carriers: tuple[tuple[int, float], ...]) -> tuple[str, ...]:
    if check.nominal_mhz is not None:
        return (OF_A_CRYSTAL.format(mhz=check.nominal_mhz), IN_PPM)
    if not carriers:
        return (IN_PPM,)
    channel, mhz = carriers[len(carriers) // 2]
    return (OF_A_CHANNEL.format(mhz=mhz, channel=channel), IN_PPM)


def _opened(head: str, lines: tuple[str, ...]) -> Element:
    return h(
        "details",
        {"class": "otherwise", "id": "otherwise"},
        h("summary", None, head),
        [h("p", None, line) for line in lines],
    )
