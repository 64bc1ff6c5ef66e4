import re

import pytest

from engine.radio.quantities import is_unit, read_number

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
    ("1,200 Hz", "Hz", 1.2),  # a comma is always a decimal one
]

# What is written, the unit wanted, what is said about it.
WRONG = [
    ("", "W", "'' does not begin with a number"),
    ("four watt", "W", "'four watt' does not begin with a number"),
    (".5 W", "W", "'.5 W' does not begin with a number"),
    ("~3 W", "W", "'~3 W' does not begin with a number"),
    ("<0.1 W", "W", "'<0.1 W' does not begin with a number"),
    ("+ 3", "W", "'+ 3' does not begin with a number"),
    ("nan", "W", "'nan' does not begin with a number"),
    ("inf", "W", "'inf' does not begin with a number"),
    ("1e999", "Hz", "'1e999' is too large a number"),
    ("5.", "W", "'.' is no unit that is known here"),
    ("1,234.5", "Hz", "'.5' is no unit that is known here"),
    ("3 500 Hz", "Hz", "'500 Hz' is no unit that is known here"),
    ("3-4 W", "W", "'-4 W' is no unit that is known here"),
    ("1/2 W", "W", "'/2 W' is no unit that is known here"),
    ("4k7", "ohm", "'k7' is no unit that is known here"),
    ("4.7 k", "ohm", "'k' is no unit that is known here"),
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
