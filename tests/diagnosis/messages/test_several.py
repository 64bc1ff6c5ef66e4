import pytest

from engine.diagnosis.messages.several import read_lines
from engine.diagnosis.model import SetModel

MEANT = {
    "13.8 V supply": ("supply.supply-volts", "13.8 V"),
    "tx power 0.4 W": ("aerial-switching.power-at-socket", "0.4 W"),
    "vco lock 3.1 V": ("lock-detector.lock-line-volts", "3.1 V"),
    "ch 20 27.79550 MHz": ("operating.transmit-error@20", "27.79550 MHz on channel 20"),
    "reg rail 8,05V": ("regulators.regulated-volts", "8,05V"),
    "Main rail: 13.1 V": ("on-off-switch.main-rail", "13.1 V"),
    "swr 1.3": ("aerial.swr-at-set", "1.3"),
    "battery 12.4V under load": ("supply.battery-under-load", "12.4V"),
    "RX sens 12 dB SINAD 0.4 uV": ("operating.socket-sinad", "0.4 uV"),
    "ref osc +3 ppm": ("reference-oscillator.ref-error", "+3 ppm"),
    "curent rise 0.9 A": ("output-stage.current-rise", "0.9 A"),
}


@pytest.mark.parametrize("line", MEANT)
def test_a_line_finds_its_check(model: SetModel, line: str) -> None:
    """Words and unit of a line lead to the check that is meant, first of all."""
    (read,) = read_lines(model, line)
    assert (read.fits[0].check, read.fits[0].said) == MEANT[line]
    assert read.is_usable


@pytest.mark.parametrize("line", ["hello there", "3.3", "blub 5 V", "speaker 8 W"])
def test_a_line_that_fits_nothing_is_kept(model: SetModel, line: str) -> None:
    """A line without a reading, without words that are known, or of no such unit fits no check."""
    (read,) = read_lines(model, line)
    assert (read.text, read.fits, read.is_usable) == (line, (), False)


def test_out_of_span_is_said(model: SetModel) -> None:
    """A reading that cannot be keeps its check and says why it is not taken."""
    (read,) = read_lines(model, "power at socket 36 W")
    assert not read.is_usable
    assert read.fits[0].check == "aerial-switching.power-at-socket"
    assert read.fits[0].problem.startswith("found 36 W, expected 0 to 20 W. Did you mean 3.6 W?")


def test_a_named_answer_is_read_too(model: SetModel) -> None:
    """A line that ends in an answer is held against checks with named answers."""
    (read,) = read_lines(model, "new fuse blown: yes")
    assert read.fits[0].check == "supply-input.new-fuse"
    assert read.fits[0].said == "yes"


def test_no_line_is_lost(model: SetModel) -> None:
    """Every line that is not empty comes back, in order, with single spaces."""
    read = read_lines(model, "\nmain  rail 13 V\n\n  nonsense \n")
    assert [each.text for each in read] == ["main rail 13 V", "nonsense"]


def test_of_two_checks_the_better_comes_first(model: SetModel) -> None:
    """What may be about several checks lists them, the likeliest first."""
    (read,) = read_lines(model, "supply voltage 13.8 V")
    scores = [fit.score for fit in read.fits]
    assert len(scores) > 1
    assert scores == sorted(scores, reverse=True)
