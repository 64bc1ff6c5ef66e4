"""The oscillators on the page, made from a report."""

from tests.terminal.test_frequencies import FOUND
from web.views.frequencies import frequency_table
from web.views.markup import html


def test_each_oscillator_has_its_row() -> None:
    """What it is, how likely it is off, how far, what it reads and what is right."""
    table = html(frequency_table(FOUND))
    assert 'data-oscillator="loop"' in table
    for words in ("Loop crystal", "93 %", "+48.8", "+40.1 to +57.4", "15.997030", "15.996250"):
        assert f">{words}<" in table
