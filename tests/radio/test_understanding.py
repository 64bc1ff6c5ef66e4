"""Readings told in the ways of the trade; arithmetic is held to its sources in the other files."""

import pytest

from engine.radio.figures import Unclear
from engine.radio.quantities import Asked
from engine.radio.understanding import likely_slips, understand

CARRIERS = ((1, 27.60125), (20, 27.79125), (40, 27.99125))  # UK channels of 1981
LOAD = Asked("Vpp", "power", (0.0, 130.0))  # 69.282 Vpp is 12 W by V = sqrt(50 P)
POWER = Asked("W", "power", (0.0, 20.0))
DEVIATION = Asked("kHz", "deviation", (0.0, 15.0))
SWR = Asked("SWR", "swr", (1.0, 50.0))
SENSITIVITY = Asked("uV", "sensitivity", (0.05, 1000.0))
LEVEL = Asked("uV", None, (0.05, 1000.0))
DEPTH = Asked("%", "am-depth", (0.0, 120.0))
OFF = Asked("kHz", "frequency-error", (-400.0, 400.0), None, CARRIERS)
CRYSTAL = Asked("ppm", "frequency-error", (-1500.0, 1500.0), 10.24)
OFFSET = Asked("kHz", "frequency-error", (-10.0, 10.0), 10.695)
VOLTS = Asked("V", None, (0.0, 40.0))

FIRST_NULL = "a tone of 1040 Hz at the first null of the carrier is 2.50 kHz"

# What is written, what is asked, the value, how it was understood.
UNDERSTOOD = [
    ("40 Vpp", POWER, 4.0, "40 Vpp across 50 ohm is 4.00 W"),
    ("12 W", LOAD, 69.282032, "12 W across 50 ohm is 69.3 Vpp"),
    ("12000 mW", LOAD, 69.282032, "12000 mW across 50 ohm is 69.3 Vpp"),
    ("36 dBm", LOAD, 39.905246, "36 dBm across 50 ohm is 39.9 Vpp"),
    ("64 Vpp", LOAD, 64.0, "64 Vpp"),
    ("64", LOAD, 64.0, "64 Vpp"),
    ("22.6 Vrms", LOAD, 63.922453, "22.6 Vrms is 63.9 Vpp"),
    ("2.5 kHz", DEVIATION, 2.5, "2.5 kHz"),
    ("±2.5 kHz", DEVIATION, 2.5, "2.5 kHz"),
    ("+/- 2500 Hz", DEVIATION, 2.5, "2500 Hz is 2.5 kHz"),
    *[
        (text, DEVIATION, 2.501019, FIRST_NULL)
        for text in (
            "null 1040 Hz",
            "first null at 1040 Hz",
            "1st null: 1040",
            "null at 1.04 kHz",
            "carrier null 1040 Hz",
            "1040 Hz first null",
            "1040 Hz tone at the first null",
            "null 1 1040",
            "null 1,040 Hz",
        )
    ],
    (
        "2nd null 453 Hz",
        DEVIATION,
        2.500595,
        "a tone of 453 Hz at the second null of the carrier is 2.50 kHz",
    ),
    (
        "third null 289",
        DEVIATION,
        2.500927,
        "a tone of 289 Hz at the third null of the carrier is 2.50 kHz",
    ),
    ("2", SWR, 2.0, "2 SWR"),
    ("SWR 2", SWR, 2.0, "2 SWR"),
    ("2:1", SWR, 2.0, "2:1 is SWR 2"),
    ("1:2", SWR, 2.0, "1:2 is SWR 2"),
    ("1,5 : 1", SWR, 1.5, "1.5:1 is SWR 1.5"),
    ("2 to 1", SWR, 2.0, "2:1 is SWR 2"),
    ("4 W / 0.44 W", SWR, 1.9925, "4 W forward and 0.44 W back is SWR 1.99"),
    ("4/0.44", SWR, 1.9925, "4 W forward and 0.44 W back is SWR 1.99"),
    ("4 W forward, 0.44 W back", SWR, 1.9925, "4 W forward and 0.44 W back is SWR 1.99"),
    ("forward 4 W and reflected 440 mW", SWR, 1.9925, "4 W forward and 0.44 W back is SWR 1.99"),
    ("fwd 4 W / refl 0.44 W", SWR, 1.9925, "4 W forward and 0.44 W back is SWR 1.99"),
    ("400/44 mW", SWR, 1.9925, "0.4 W forward and 0.044 W back is SWR 1.99"),
    ("4/0", SWR, 1.0, "4 W forward and 0 W back is SWR 1.00"),
    ("return loss 9.5 dB", SWR, 2.007363, "a return loss of 9.5 dB is SWR 2.01"),
    ("RL -9.5", SWR, 2.007363, "a return loss of 9.5 dB is SWR 2.01"),
    ("9.5 dB return loss", SWR, 2.007363, "a return loss of 9.5 dB is SWR 2.01"),
    ("0.3", SENSITIVITY, 0.3, "0.3 uV"),
    ("12 dB SINAD at 0.3 uV", SENSITIVITY, 0.3, "0.3 uV"),
    ("12dB SINAD 0,3 µV", SENSITIVITY, 0.3, "0.3 uV"),
    ("0.3 uV for 12 dB SINAD", SENSITIVITY, 0.3, "0.3 uV"),
    ("0.3 uV pd", SENSITIVITY, 0.3, "0.3 uV"),
    ("12 dB at -107 dBm", SENSITIVITY, 0.998815, "-107 dBm across 50 ohm is 0.999 uV"),
    ("-6 dBuV", SENSITIVITY, 0.501187, "-6 dBuV is 0.501 uV"),
    ("0.6 uV emf", SENSITIVITY, 0.3, "0.6 uV EMF is 0.3 uV across 50 ohm"),
    ("12 dB SINAD at 0.6 uV (EMF)", SENSITIVITY, 0.3, "0.6 uV EMF is 0.3 uV across 50 ohm"),
    ("6 dBuV emf", SENSITIVITY, 0.997631, "6 dBuV EMF is 0.998 uV across 50 ohm"),
    ("20 uV emf", LEVEL, 10.0, "20 uV EMF is 10 uV across 50 ohm"),
    ("85 %", DEPTH, 85.0, "85 %"),
    ("74/6", DEPTH, 85.0, "maximum 74 and minimum 6 is 85.0 %"),
    ("max 74 min 6 Vpp", DEPTH, 85.0, "maximum 74 and minimum 6 is 85.0 %"),
    ("74 V / 6 V", DEPTH, 85.0, "maximum 74 and minimum 6 is 85.0 %"),
    ("+1.2 kHz", OFF, 1.2, "+1.2 kHz"),
    ("0.3", OFF, 0.3, "+0.3 kHz"),
    ("-300 Hz", OFF, -0.3, "-300 Hz is -0.3 kHz"),
    ("300 Hz low", OFF, -0.3, "-300 Hz is -0.3 kHz"),
    ("1.2 kHz too high", OFF, 1.2, "+1.2 kHz"),
    (
        "27.7925 MHz on channel 20",
        OFF,
        1.25,
        "27.7925 MHz, to be 27.79125 MHz on channel 20, is +1.25 kHz",
    ),
    (
        "ch 20: 27792.5 kHz",
        OFF,
        1.25,
        "27792.5 kHz, to be 27.79125 MHz on channel 20, is +1.25 kHz",
    ),
    ("+9.8 ppm on channel 20", OFF, 0.272354, "+9.8 ppm is +0.272 kHz"),
    ("+9.8 ppm", CRYSTAL, 9.8, "+9.8 ppm"),
    ("10.240100 MHz", CRYSTAL, 9.765625, "10.2401 MHz, to be 10.24 MHz, is +9.77 ppm"),
    ("10,240,100 Hz", CRYSTAL, 9.765625, "10240100 Hz, to be 10.24 MHz, is +9.77 ppm"),
    ("10.240100", CRYSTAL, 9.765625, "10.2401 MHz, to be 10.24 MHz, is +9.77 ppm"),
    ("10240.1", CRYSTAL, 9.765625, "10240.1 kHz, to be 10.24 MHz, is +9.77 ppm"),
    ("10240100", CRYSTAL, 9.765625, "10240100 Hz, to be 10.24 MHz, is +9.77 ppm"),
    ("+10.240", CRYSTAL, 10.24, "+10.24 ppm"),  # with a sign it is an error
    ("10.24", CRYSTAL, 10.24, "+10.24 ppm"),
    ("-100 Hz", CRYSTAL, -9.765625, "-100 Hz is -9.77 ppm"),
    ("10.6951 MHz", OFFSET, 0.1, "10.6951 MHz, to be 10.695 MHz, is +0.1 kHz"),
    ("9.8 ppm low", OFFSET, -0.104811, "-9.8 ppm is -0.105 kHz"),
]

NO_CHANNEL = "Say the channel too, such as '27.7925 MHz on channel 20', which would be +1.25 kHz."
S7 = "By the convention for below 30 MHz (IARU Region 1 R.1, 1981) S7 would be 12.6 uV (-85 dBm)."
S9 = (
    "By the convention for below 30 MHz (IARU Region 1 R.1, 1981) "
    "S9+20 dB would be 501 uV (-53 dBm)."
)
GENERATOR = " Write the level the generator shows."
SET_12 = (
    "Set the generator until the meter shows 12 dB, and write that level: "
    "one SINAD cannot be worked out from another."
)
LOOK = "Write the forward power first; if that is how they are, look at the meter."

# What is written, what is asked, what is said about it, what to do.
WRONG = [
    ("-10 Vpp", POWER, "-10 Vpp: a peak-to-peak voltage is never negative", ""),
    (
        "fourth null 200 Hz",
        DEVIATION,
        "'fourth null'",
        "The nulls known here are the first, second, third.",
    ),
    ("null", DEVIATION, "'null' is no carrier null", "Write it as 'first null at 1040 Hz'."),
    (
        "null 1.04",
        DEVIATION,
        "a tone of 1.04 Hz",
        "Did you mean 1.04 kHz? A tone lies between 20 and 20000 Hz.",
    ),
    ("null 25000", DEVIATION, "a tone of 25000 Hz", "A tone lies between 20 and 20000 Hz."),
    ("0.5", SWR, "SWR 0.5: an SWR is never below 1", "Write it as 2:1."),
    ("3:2", SWR, "'3:2' has no side that is 1", "Write it as 2:1, or two powers as 4/0.44."),
    (
        "2/1",
        SWR,
        "'2/1' may be a ratio or two powers",
        "Write 2:1 for the ratio, or 2 W / 1 W for the powers.",
    ),
    ("9.5 dB", SWR, "'9.5 dB' is no SWR", "Did you mean 'return loss 9.5 dB'?"),
    (
        "return loss 0 dB",
        SWR,
        "a return loss of 0 dB is an SWR without end",
        "Look at the cable and the meter.",
    ),
    ("0.44/4", SWR, "0.44 W forward and 4 W back: not more can come back than was sent", LOOK),
    ("10 dB SINAD at 0.3 uV", SENSITIVITY, "a level for 10 dB SINAD", SET_12),
    ("0.3 uV for 20 dB", SENSITIVITY, "a level for 20 dB SINAD", SET_12),
    (
        "-107 dBm emf",
        SENSITIVITY,
        "'-107 dBm' is a power, and only a voltage can be an EMF",
        "Write the level as it is marked on the generator: dBm, or microvolts EMF.",
    ),
    ("S7", SENSITIVITY, "S7, and S meters rarely follow the convention", S7 + GENERATOR),
    ("s9 + 20 dB", LEVEL, "S9+20 dB, and S meters rarely follow the convention", S9 + GENERATOR),
    ("S9", VOLTS, "'S9' does not begin with a number", ""),
    (
        "6/74",
        DEPTH,
        "maximum 6 and minimum 74 make no depth",
        "Write the larger size first, such as 74/6.",
    ),
    ("74 V / 6 mV", DEPTH, "V beside mV", "Write both in one unit, such as 74/6."),
    ("74/6 kHz", DEPTH, "'kHz' is no unit of a picture on a scope", "Write it as 74/6."),
    (
        "27.7925",
        OFF,
        "'27.7925' may be a frequency in MHz or an error in kHz",
        "Write '27.7925 MHz on channel 20' for the frequency, or '+27.7925 kHz'.",
    ),
    ("27.7925 MHz", OFF, "27.7925 MHz is a frequency, not its error", NO_CHANNEL),
    ("27792500 Hz", OFF, "27792500 Hz is a frequency, not its error", NO_CHANNEL),
    (
        "145 MHz",
        OFF,
        "145 MHz is a frequency, not its error",
        "Say the channel too, such as '145 MHz on channel 40'.",
    ),
    ("27.6 MHz on channel 77", OFF, "channel 77", "The channels go from 1 to 40."),
    (
        "+9.8 ppm",
        OFF,
        "+9.8 ppm cannot be turned into kHz",
        "Say the channel too, such as '+9.8 ppm on channel 20'.",
    ),
    (
        "1,200 Hz",
        OFF,
        "'1,200 Hz' may mean 1.2 Hz or 1200 Hz",
        "Write 1.2 Hz or 1200 Hz, without a comma.",
    ),
    ("3 W", CRYSTAL, "W cannot be turned into ppm", ""),
    ("100 Hz", Asked("ppm", "frequency-error"), "+100 Hz cannot be turned into ppm", ""),
]

# What is written, what is asked, the range of right readings, what was likely meant.
SLIPS = [
    ("138", VOLTS, (12.0, 14.7), ("13.8 V",)),
    ("13800", VOLTS, (12.0, 14.7), ("13.8 V",)),
    ("3500", POWER, (3.3, 4.5), ("3.5 W",)),
    ("36", POWER, (3.3, 4.5), ("3.6 W", "36 dBm, that is 3.98 W")),
    ("400 Vpp", POWER, (3.3, 4.5), ("40 Vpp, that is 4.00 W",)),
    ("0.0003", SENSITIVITY, (0.1, 0.8), ("0.3 uV",)),
    ("17100", Asked("MHz", None, (12.0, 24.0)), (16.9, 17.2), ("17.1 MHz",)),
    ("2500", DEVIATION, (1.8, 2.6), ("2.5 kHz",)),
    ("300", VOLTS, (12.0, 14.7), ("30 V",)),
    ("-13", VOLTS, (12.0, 14.7), ("13 V",)),
    ("1040", DEVIATION, (1.8, 2.6), ("first null at 1040 Hz, that is 2.50 kHz",)),
    ("17.1 MHz", Asked("kHz", None, (-400.0, 400.0)), (-0.3, 0.3), ()),
    ("99 V", VOLTS, (12.0, 14.7), ("9.9 V",)),
    ("null 25", VOLTS, (12.0, 14.7), ()),
    ("138 apples", VOLTS, (12.0, 14.7), ()),
    ("138 W", VOLTS, (12.0, 14.7), ()),
]


@pytest.mark.parametrize(("text", "asked", "value", "words"), UNDERSTOOD, ids=lambda one: str(one))
def test_the_ways_of_telling_a_reading(text: str, asked: Asked, value: float, words: str) -> None:
    """The value, to six figures, and how it was understood."""
    told = understand(text, asked)
    assert told.value == pytest.approx(value, rel=1e-5)
    assert told.words == words


@pytest.mark.parametrize(("text", "asked", "said", "remedy"), WRONG, ids=lambda one: str(one))
def test_what_is_questioned(text: str, asked: Asked, said: str, remedy: str) -> None:
    """A sentence says what is wrong, and another what to do, where that is known."""
    with pytest.raises(Unclear) as caught:
        understand(text, asked)
    assert (str(caught.value), caught.value.remedy) == (said, remedy)


@pytest.mark.parametrize(("text", "asked", "right", "slips"), SLIPS, ids=lambda one: str(one))
def test_the_likeliest_slip(
    text: str, asked: Asked, right: tuple[float, float], slips: tuple[str, ...]
) -> None:
    """A prefix, a decimal point or a unit that leads to a right reading; else to a possible one."""
    assert likely_slips(text, asked, right) == slips


def test_watts_are_volts_only_across_the_load() -> None:
    """At a base inside the set no volts stand across 50 ohm: there a power is refused."""
    with pytest.raises(Unclear) as caught:
        understand("12 W", Asked("Vpp", None, (0.0, 130.0)))
    assert str(caught.value) == "W cannot be turned into Vpp"
