from html import unescape

from engine.diagnosis.model import SetModel
from tests.web.test_views import after
from web.views.markup import html
from web.views.page import screen
from web.views.several import several_box
from web.views.state import Shown


def shown_for(model: SetModel, lines: str) -> str:
    """Return the screen of proposals for some lines."""
    return unescape(html(*screen(after(model), Shown("several", lines=lines))))


def test_a_line_is_proposed_with_a_way_out(small_model: SetModel) -> None:
    """The best check is chosen, what would be entered is shown, and the line can be left out."""
    shown = shown_for(small_model, "power 4 W")
    assert '{"check":"sender.power","said":"4 W"}" selected' in shown
    assert "None of these: leave it out" in shown
    assert "Nothing is entered until you say so." in shown


def test_a_second_line_about_the_same_check_is_said(small_model: SetModel) -> None:
    """Two lines never enter one check twice unseen: the second is left out and says so."""
    shown = shown_for(small_model, "power 4 W\npower 5 W")
    assert shown.count("Another line is about the same check.") == 1


def test_what_fits_nothing_is_listed_and_stays(small_model: SetModel) -> None:
    """A line no check takes is told with its reason and stands in the box again."""
    shown = shown_for(small_model, "hello there\npower 400 W")
    assert "hello there</b><small>Fits no check of this set." in shown
    assert "power 400 W</b><small>Found 400 W, expected 0 to 10 W." in shown
    assert "hello there\npower 400 W</textarea>" in shown
    assert 'id="enter-several"' not in shown


def test_lines_left_over_keep_the_box_open() -> None:
    """What was not entered waits in the box on the bench, which is then open."""
    assert "<details" in html(several_box(Shown()))
    assert 'open=""' not in html(several_box(Shown()))
    left = html(several_box(Shown(lines="hello there")))
    assert "lines left over below" in left
    assert " open" in left.split(">")[0]
