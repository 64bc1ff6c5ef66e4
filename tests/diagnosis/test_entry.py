import pytest

from engine.diagnosis.case import CANNOT_CHECK
from engine.diagnosis.entry import read_answer, understood
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading


@pytest.mark.parametrize(
    ("check", "text", "outcome"),
    [
        ("supply.dark", "yes", "yes"),
        ("supply.dark", " Y ", "yes"),
        ("supply.dark", "true", "yes"),
        ("supply.dark", "No", "no"),
        ("supply.dark", "false", "no"),
        ("sender.weak", "faint", "faint"),
        ("sender.weak", "Nothing at all", "nothing"),
        ("sender.weak", "as loud as ever", "loud"),
        ("sender.weak", "cannot-check", CANNOT_CHECK),
        ("sender.power", "?", CANNOT_CHECK),
        ("sender.power", "Cannot check", CANNOT_CHECK),
        ("past.fell", "don't know", CANNOT_CHECK),
    ],
)
def test_words_are_outcomes(check: str, text: str, outcome: str, beacon: SetModel) -> None:
    """By id or title, in any case; and several ways of saying that it cannot be checked."""
    finding = read_answer(beacon, check, text)
    assert (finding.outcome, finding.value, finding.said) == (outcome, None, text.strip())


@pytest.mark.parametrize(
    ("check", "text", "value"),
    [
        ("supply.rail-volts", "13", 13.0),
        ("supply.rail-volts", "12900 mV", 12.9),
        ("supply.rail-volts", "0,4", 0.4),
        ("sender.power", "40 Vpp", 4.0),
        ("sender.power", "400 mW", 0.4),
        ("sender.power", "36.0206 dBm", 4.0),
        ("sender.power", "10", 10.0),
        ("sender.power", "0", 0.0),
    ],
)
def test_numbers_are_in_the_unit_of_the_check(
    check: str, text: str, value: float, beacon: SetModel
) -> None:
    """Whatever unit they were said in; the ends of the span still count."""
    finding = read_answer(beacon, check, text)
    assert finding.outcome is None
    assert finding.value == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize(
    ("check", "text", "message"),
    [
        (
            "sender.pover",
            "1 W",
            "sender.pover: found 'sender.pover', expected a check of this family\n"
            "  Did you mean 'sender.power'?",
        ),
        (
            "sender.weak",
            "fant",
            "sender.weak: found 'fant', expected one of loud, faint, nothing, or cannot-check\n"
            "  Did you mean 'faint'?",
        ),
        (
            "supply.dark",
            "perhaps",
            "supply.dark: found 'perhaps', expected one of yes, no, or cannot-check\n"
            "  Known: cannot-check, no, yes.",
        ),
        (
            "sender.weak",
            "yes",
            "sender.weak: found 'yes', expected one of loud, faint, nothing, or cannot-check\n"
            "  Known: cannot-check, faint, loud, nothing.",
        ),
        (
            "sender.power",
            "plenty",
            "sender.power: found 'plenty' does not begin with a number, expected a reading in W\n"
            "  Write a number in W, or with its own unit.",
        ),
        (
            "sender.power",
            "3 ohm",
            "sender.power: found ohm cannot be turned into W, expected a reading in W\n"
            "  Write a number in W, or with its own unit.",
        ),
        (
            "sender.power",
            "12 W",
            "sender.power: found 12 W, expected 0 to 10 W\n"
            "  Did you mean 1.2 W? If not, look again at range, unit and decimal point; "
            "what is right: 3.5 to 4 W.",
        ),
        (
            "supply.rail-volts",
            "138",
            "supply.rail-volts: found 138 V, expected 0 to 20 V\n"
            "  Did you mean 13.8 V? If not, look again at range, unit and decimal point; "
            "what is right: 12.5 to 13.8 V.",
        ),
        (
            "sender.power",
            "400 Vpp",
            "sender.power: found 400 W (400 Vpp across 50 ohm), expected 0 to 10 W\n"
            "  Did you mean 40 Vpp, that is 4.00 W? If not, look again at range, unit and "
            "decimal point; what is right: 3.5 to 4 W.",
        ),
        (
            "sender.power",
            "36",
            "sender.power: found 36 W, expected 0 to 10 W\n"
            "  Did you mean 3.6 W or 36 dBm, that is 3.98 W? If not, look again at range, unit "
            "and decimal point; what is right: 3.5 to 4 W.",
        ),
        (
            "supply.rail-volts",
            "1,200 mV",
            "supply.rail-volts: found '1,200 mV' may mean 1.2 mV or 1200 mV, "
            "expected a reading in V\n"
            "  Write 1.2 mV or 1200 mV, without a comma.",
        ),
        (
            "sender.power",
            "-10 Vpp",
            "sender.power: found -10 Vpp: a peak-to-peak voltage is never negative, "
            "expected a reading in W\n"
            "  Write a number in W, or with its own unit.",
        ),
        (
            "supply.rail-volts",
            "-13 V",
            "supply.rail-volts: found -13 V, expected 0 to 20 V\n"
            "  Did you mean 13 V? If not, look again at range, unit and decimal point; "
            "what is right: 12.5 to 13.8 V.",
        ),
    ],
)
def test_what_cannot_be_used_is_said_with_a_remedy(
    check: str, text: str, message: str, beacon: SetModel
) -> None:
    """The whole message."""
    with pytest.raises(UnknownReading) as caught:
        read_answer(beacon, check, text)
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("check", "text", "words"),
    [
        ("sender.power", "3.5", ""),
        ("sender.power", "3.5 W", ""),
        ("sender.power", "3.5w", ""),
        ("sender.power", "3,5 W", "3.5 W"),
        ("sender.power", "3.50 watts", "3.5 W"),
        ("sender.power", "500 mW", "500 mW is 0.5 W"),
        ("sender.power", "40 Vpp", "40 Vpp across 50 ohm is 4.00 W"),
        ("supply.rail-volts", "1,200", "1.2 V"),
        ("supply.rail-volts", "cannot-check", ""),
        ("supply.dark", "yes", ""),
    ],
)
def test_how_a_reading_was_understood(check: str, text: str, words: str, beacon: SetModel) -> None:
    """In words wherever it is more than the number that was typed."""
    assert understood(beacon, read_answer(beacon, check, text)) == words
