import re

from engine.diagnosis.model import SetModel
from tests.web.test_views import DARK, after
from web.views.markup import html
from web.views.page import later
from web.views.state import Bench, Shown
from web.views.timeline import timeline

WEAK = {"do": "answer", "check": "sender.weak", "said": "Nothing at all"}


def test_nothing_found_has_no_line(fresh: Bench) -> None:
    """Before the first finding there is no drawing, only what will be there."""
    assert html(timeline(fresh)) == (
        '<p class="hint">Once something is found, a line here shows how much each finding '
        "cleared up.</p>"
    )


def test_drawing_and_list_tell_the_same_bits(small_model: SetModel) -> None:
    """Each stage is a mark and a line of the list, with the same bits left."""
    shown = html(timeline(after(small_model, DARK, WEAK)))
    drawn = re.findall(r"<title>[^<]*: ([\d.]+) bits left</title>", shown)
    listed = re.findall(r"<small>([\d.]+) bits left", shown)
    assert len(drawn) == 3
    assert drawn == listed


def test_a_stage_opens_its_answer(small_model: SetModel) -> None:
    """Mark and line lead to the check whose answer made the stage."""
    shown = html(timeline(after(small_model, DARK)))
    assert shown.count('data-view="{&quot;check&quot;:&quot;supply.dark&quot;}"') == 2


def test_it_comes_after_the_repaint(small_model: SetModel) -> None:
    """The line is a part of its own, at the bench only."""
    bench = after(small_model, DARK)
    assert list(later(bench, Shown(screen="bench"), "timeline", "0")) == ["timeline"]
    assert later(bench, Shown(screen="kit"), "timeline", "0") == {}
