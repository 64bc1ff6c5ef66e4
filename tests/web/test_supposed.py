import re
from html import unescape

from engine.diagnosis.advising.foresight import what_if
from engine.diagnosis.model import SetModel
from tests.web.test_views import DARK, after
from web.views.effects import effects_table
from web.views.markup import html
from web.views.page import screen
from web.views.state import Bench, Shown


def supposing(bench: Bench, check: str, answer: str) -> str:
    """Return the screen after an answer that is only supposed."""
    return html(*screen(bench, Shown("supposed", supposed_check=check, supposed=answer)))


def test_supposed_figures_are_those_of_the_case_with_that_answer(small_model: SetModel) -> None:
    """What is shown as supposed is what the bench shows once the answer is entered."""
    supposed = supposing(after(small_model), "supply.dark", "yes")
    entered = html(*screen(after(small_model, DARK), Shown(screen="bench")))
    pattern = r'data-{}="([\w.-]+)".*?class="figure">([^<]+)<'
    rows = re.findall(pattern.format("supposed"), supposed)
    assert rows
    assert rows == re.findall(pattern.format("cause"), entered)[: len(rows)]


def test_it_is_marked_and_has_two_ways_out(small_model: SetModel) -> None:
    """It says that nothing is entered; one button goes back, one enters the answer."""
    shown = unescape(supposing(after(small_model), "sender.power", "2 W"))
    assert "Nothing of this is entered. Your case is as you left it." in shown
    assert '"screen":"bench","supposed":"","supposed_check":""' in shown
    assert '{"check":"sender.power","do":"answer","said":"2 W"}' in shown


def test_a_reading_that_cannot_be_is_explained(small_model: SetModel) -> None:
    """A supposed reading out of the span says why, and the way back stays."""
    shown = supposing(after(small_model), "sender.power", "plenty")
    assert "That cannot be supposed" in shown
    assert "expected a reading in W. Write a number in W, or with its own unit." in shown
    assert 'id="not-so"' in shown


def test_every_outcome_can_be_supposed(small_model: SetModel) -> None:
    """Each effect in the table opens an answer that the check accepts; readings have a field."""
    bench = after(small_model)
    for name, check in small_model.checks.items():
        effects = what_if(small_model, bench.case, name)
        table = html(effects_table(bench, check, effects))
        assert table.count('aria-label="Suppose: ') == len(effects)
        assert ('name="supposed"' in table) == bool(check.unit)
        for each in effects:
            assert "Only supposed" in supposing(bench, name, each.said)


def test_without_a_check_the_bench_is_shown(small_model: SetModel) -> None:
    """A check this set has not cannot be supposed about: the bench is shown."""
    assert "On the bench" in supposing(after(small_model), "no.such", "yes")
