import re

import pytest

from engine.radio.figures import Unclear
from engine.radio.quantities import Asked, is_unit, read_number, read_quantity

# What is written, the unit wanted, the number in it. In 50 ohm: 40 Vpp = 4 W = 36.02 dBm.
SPELLINGS = [
    ("3.5", "W", 3.5),
    ("3.5W", "W", 3.5),
    ("  3.5   W  ", "W", 3.5),
    ("3.5\u00a0W", "W", 3.5),  # the space that does not break
    ("3,5 W", "W", 3.5),
    ("0,4", "W", 0.4),
    ("4 w", "W", 4.0),
    ("400 mW", "W", 0.4),
    ("400mw", "W", 0.4),
    ("0.0004 kW", "W", 0.4),
    ("4e-9 W", "nW", 4.0),
    ("0.25 uW", "nW", 250.0),
    ("40 Vpp", "W", 4.0),
    ("40vpp", "W", 4.0),
    ("40 mVpp", "W", 4e-6),
    ("10 Vrms", "W", 2.0),
    ("10 V", "W", 2.0),
    ("30 dBm", "W", 1.0),
    ("30dbm", "mW", 1000.0),
    ("-30 dBm", "uW", 1.0),
    ("-47 dBm", "uV", 1e6 * (50 * 10**-7.7) ** 0.5),
    ("0 dBuV", "uV", 1.0),
    ("20 dBµV", "uV", 10.0),
    ("60 dbuv", "mV", 1.0),
    ("50 µV", "uV", 50.0),  # the micro sign
    ("50 μV", "uV", 50.0),  # the Greek letter
    ("50 uV", "V", 50e-6),
    ("1 Vrms", "V", 1.0),
    ("10 V", "Vpp", 20 * 2**0.5),
    ("10 mVrms", "mVpp", 20 * 2**0.5),
    ("500 mVpp", "Vpp", 0.5),
    ("12.6v", "V", 12.6),
    ("1E-3 A", "mA", 1.0),
    ("150 ma", "A", 0.15),
    ("50 Ω", "ohm", 50.0),  # the ohm sign
    ("4.7 kΩ", "ohm", 4700.0),  # the Greek letter
    ("4,7 Kohm", "ohm", 4700.0),
    ("+300 Hz", "Hz", 300.0),
    ("-300", "Hz", -300.0),
    ("−300 Hz", "Hz", -300.0),  # the minus sign
    ("1e3 Hz", "kHz", 1.0),
    ("2.5 KHZ", "Hz", 2500.0),
    ("27.60125 MHz", "Hz", 27601250.0),
    ("27601.25 khz", "MHz", 27.60125),
    ("27.785 mHz", "kHz", 27785.0),  # nobody means millihertz
    ("22 pf", "nF", 0.022),
    ("1.5", "SWR", 1.5),
    ("1,5", "SWR", 1.5),
    ("1.5:1", "SWR", 1.5),
    ("1.5 : 1", "SWR", 1.5),
    ("1.5 to 1", "SWR", 1.5),
    ("1.5 swr", "SWR", 1.5),
    ("10%", "%", 10.0),
    ("-22 PPM", "ppm", -22.0),
    ("12 db", "dB", 12.0),
    (".5 W", "W", 0.5),
    ("5.", "W", 5.0),
    ("~3 W", "W", 3.0),
    ("about 3 W", "W", 3.0),
    ("3.5 W.", "W", 3.5),  # the end of a sentence
    ("1,234.5", "Hz", 1234.5),
    ("1.234,5", "Hz", 1234.5),
    ("27,601,250 Hz", "MHz", 27.60125),
    ("27.601.250 Hz", "MHz", 27.60125),
    ("3 500 Hz", "Hz", 3500.0),
    ("0,125 W", "W", 0.125),  # no number in thousands begins with 0
    ("4k7", "ohm", 4700.0),
    ("4R7", "ohm", 4.7),
    ("1M2 ohms", "ohm", 1.2e6),
    ("4K7 Ω", "kohm", 4.7),
    ("4.7 k", "ohm", 4700.0),
    ("10K", "ohm", 10000.0),
    ("20 Vpk", "W", 4.0),
    ("20 Vp", "Vpp", 40.0),
]

# What is written, the unit wanted, what is said about it.
WRONG = [
    ("", "W", "'' does not begin with a number"),
    ("four watt", "W", "'four watt' does not begin with a number"),
    ("<0.1 W", "W", "'<0.1 W' does not begin with a number"),
    ("+ 3", "W", "'+ 3' does not begin with a number"),
    ("nan", "W", "'nan' does not begin with a number"),
    ("inf", "W", "'inf' does not begin with a number"),
    ("1e999", "Hz", "'1e999' is too large a number"),
    ("4000 dBm", "W", "'4000 dBm' is too large a number"),
    ("1,200 Hz", "Hz", "'1,200 Hz' may mean 1.2 Hz or 1200 Hz"),
    ("-1,200", "Hz", "'-1,200 Hz' may mean -1.2 Hz or -1200 Hz"),
    ("1,23,456", "Hz", "',456' is no unit that is known here"),
    ("-2 W", "W", "-2 W: a power is never negative; a small one has a negative number of dBm"),
    ("-10 Vpp", "W", "-10 Vpp: a peak-to-peak voltage is never negative"),
    ("-10 Vrms", "W", "-10 Vrms: an rms voltage is never negative"),
    ("-10 V", "W", "-10 V: the size of a voltage is never negative"),
    ("-3", "ohm", "-3 ohm: a resistance is never negative"),
    ("3-4 W", "W", "'-4 W' is no unit that is known here"),
    ("1/2 W", "W", "'/2 W' is no unit that is known here"),
    ("4k7", "W", "'k7' is no unit that is known here"),
    ("4.7 k", "Hz", "'k' is no unit that is known here"),
    ("4 QW", "W", "'QW' is no unit that is known here"),
    ("12 apples", "V", "'apples' is no unit that is known here"),
    ("1.5:2", "SWR", "':2' is no unit that is known here"),
    ("1.5:1", "W", "':1' is no unit that is known here"),
    ("3 W", "V", "W cannot be turned into V"),
    ("3 kHz", "W", "Hz cannot be turned into W"),
    ("3 ppm", "Hz", "ppm cannot be turned into Hz"),
    ("3 Vpp", "V", "Vpp cannot be turned into V"),
    ("3 dB", "W", "dB cannot be turned into W"),
    ("3 mA", "mW", "A cannot be turned into mW"),
]


@pytest.mark.parametrize(("text", "unit", "number"), SPELLINGS)
def test_what_people_write(text: str, unit: str, number: float) -> None:
    """One number, in the unit of the check, however it is spelt."""
    assert read_number(text, unit) == pytest.approx(number, rel=1e-12)


@pytest.mark.parametrize(("text", "unit", "said"), WRONG)
def test_what_is_not_understood(text: str, unit: str, said: str) -> None:
    """A sentence says what was not understood."""
    with pytest.raises(ValueError, match=f"^{re.escape(said)}$"):
        read_number(text, unit)


@pytest.mark.parametrize("value", [1000.0, 3000.0, 27601250.0, -600.0, 0.0])
def test_round_numbers_stay_round(value: float) -> None:
    """1000 Hz is 1 kHz to the last digit, not 0.9999 of it."""
    assert read_number(f"{value} Hz", "kHz") == value / 1000.0


@pytest.mark.parametrize("unit", ["W", "nW", "kHz", "MHz", "ohm", "kΩ", "µV", "dBuV", "SWR", "%"])
def test_units_that_are_known(unit: str) -> None:
    """Base units, with a prefix or without, and the plain ones."""
    assert is_unit(unit)


@pytest.mark.parametrize("text", ["", "watts", "QW", "dBq", "mdB", "kSWR", "kkHz", "m"])
def test_units_that_are_not(text: str) -> None:
    """No second prefix, no prefix on a ratio, no word."""
    assert not is_unit(text)


@pytest.mark.parametrize("unit", ["W", "mVpp", "uV", "A", "ohm", "kHz", "ppm", "dB", "SWR", "%"])
def test_a_number_with_its_own_unit_is_itself(unit: str) -> None:
    """Written with or without the unit of the check, the number stays as it is."""
    assert read_number("12.5", unit) == read_number(f"12.5 {unit}", unit) == 12.5


# What is written in words, and the same in symbols.
WORDS = [
    ("12 volts", "V", "12 V"),
    ("1 volt", "V", "1 V"),
    ("50 ohms", "ohm", "50 ohm"),
    ("3 kilohms", "ohm", "3 kohm"),
    ("3 kilo-ohms", "ohm", "3 kohm"),
    ("2 Megohms", "ohm", "2 Mohm"),
    ("4 watts", "W", "4 W"),
    ("400 milliwatts", "W", "400 mW"),
    ("1.5 amps", "A", "1.5 A"),
    ("150 milliamps", "A", "150 mA"),
    ("150 milliamperes", "A", "150 mA"),
    ("1.2 kilohertz", "Hz", "1.2 kHz"),
    ("27.6 Megahertz", "Hz", "27.6 MHz"),
    ("0.3 microvolts", "uV", "0.3 uV"),
    ("40 volts peak to peak", "W", "40 Vpp"),
    ("40 V p-p", "W", "40 Vpp"),
    ("14 volts rms", "W", "14 Vrms"),
    ("14 V eff", "W", "14 Vrms"),
    ("20 volts peak", "W", "20 Vpk"),
    ("22 picofarads", "nF", "22 pF"),
    ("9.8 parts per million", "ppm", "9.8 ppm"),
    ("85 per cent", "%", "85 %"),
    ("12 decibels", "dB", "12 dB"),
    ("7 dB SINAD", "dB", "7 dB"),
    ("2 VSWR", "SWR", "2 SWR"),
]


@pytest.mark.parametrize(("words", "unit", "symbols"), WORDS)
def test_units_in_words(words: str, unit: str, symbols: str) -> None:
    """A unit in words is that in symbols."""
    assert read_number(words, unit) == read_number(symbols, unit)


# What is written, the unit wanted, the span, how it was understood.
UNDERSTOOD = [
    ("3.5", "W", None, "3.5 W"),
    ("3,5W", "W", None, "3.5 W"),
    ("500 mW", "W", None, "500 mW is 0.5 W"),
    ("36 dBm", "W", None, "36 dBm is 3.98 W"),
    ("40 Vpp", "W", None, "40 Vpp across 50 ohm is 4.00 W"),
    ("14.1 Vrms", "W", None, "14.1 Vrms across 50 ohm is 3.98 W"),
    ("-107 dBm", "uV", None, "-107 dBm across 50 ohm is 0.999 uV"),
    ("10 V", "Vpp", None, "10 V is 28.3 Vpp"),
    ("4k7", "ohm", None, "4700 ohm"),
    ("27792.5 kHz", "MHz", None, "27792.5 kHz is 27.7925 MHz"),
    ("27792500 Hz", "MHz", None, "27792500 Hz is 27.7925 MHz"),
    ("1,200 Hz", "Hz", (0.0, 100.0), "1.2 Hz"),
    ("1,200 Hz", "Hz", (100.0, 2000.0), "1200 Hz"),
    ("17,100", "MHz", (12.0, 24.0), "17.1 MHz"),
    ("17,100 kHz", "MHz", (12.0, 24.0), "17100 kHz is 17.1 MHz"),
]


@pytest.mark.parametrize(("text", "unit", "span", "words"), UNDERSTOOD)
def test_how_it_was_understood(
    text: str, unit: str, span: tuple[float, float] | None, words: str
) -> None:
    """The words say what the value was worked out from; a span settles what a comma means."""
    assert read_quantity(text, Asked(unit, span=span)).words == words


@pytest.mark.parametrize("span", [None, (0.0, 2000.0), (2000.0, 3000.0)])
def test_a_comma_that_may_be_either_is_a_question(span: tuple[float, float] | None) -> None:
    """Nothing settles it where both readings lie in the span, or neither does."""
    with pytest.raises(Unclear) as caught:
        read_quantity("1,200 Hz", Asked("Hz", span=span))
    assert str(caught.value) == "'1,200 Hz' may mean 1.2 Hz or 1200 Hz"
    assert caught.value.remedy == "Write 1.2 Hz or 1200 Hz, without a comma."
