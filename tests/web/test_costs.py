"""Repair now or measure on, as the page tells it; views without a browser."""

from dataclasses import replace
from html import unescape

import pytest

from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import SetModel
from tests.diagnosis.making.test_cause_texts import with_repairs
from tests.web.test_views import after
from web.replaying import Input
from web.views.bench import bench_screen
from web.views.costs import costs_box, stage_of
from web.views.markup import html
from web.views.page import later
from web.views.state import Shown


@pytest.fixture(scope="module")
def costed() -> SetModel:
    """Return the tiny set with a table of repairs."""
    return compile_family(with_repairs(), "beacon")


def said(check: str, words: str) -> Input:
    """Return an answer as the log holds it."""
    return {"do": "answer", "check": check, "said": words, "at": "2001-02-03T04:05:06"}


FOUND = (said("supply.rail-volts", "13 V"), said("sender.power", "0.05 W"))


def test_costs_are_worked_out_when_asked_for(costed: SetModel) -> None:
    """At first there is a button; it names this stage of the case, and only then figures come."""
    bench = after(costed, *FOUND)
    stage = stage_of(bench)
    box = unescape(html(costs_box(bench, Shown())))
    assert f'data-view="{{"costs":"{stage}"}}"' in box
    assert "Work out the minutes" in box
    assert later(bench, Shown(screen="bench"), "costs", "0") == {}
    assert 'data-later="costs"' in html(costs_box(bench, Shown(costs=stage)))
    assert set(later(bench, Shown(screen="bench", costs=stage), "costs", "0")) == {"costs"}


def test_the_next_answer_asks_anew(costed: SetModel) -> None:
    """Figures of an earlier stage are not shown, nor worked out, so no answer waits for them."""
    shown = Shown(screen="bench", costs=stage_of(after(costed, *FOUND)))
    bench = after(costed, *FOUND, said("sender.weak", "nothing"))
    assert "Work out the minutes" in html(costs_box(bench, shown))
    assert later(bench, shown, "costs", "0") == {}


def test_repairs_and_checks_lead_to_their_cards(costed: SetModel) -> None:
    """A repair opens its cause, where the cautions stand; a look before it is a check to make."""
    bench = after(costed, *FOUND)
    shown = Shown(screen="bench", costs=stage_of(bench))
    told = unescape(later(bench, shown, "costs", "0")["costs"])
    assert "Cheapest: repair now." in told
    assert "Repairing now: about 33 minutes to be expected" in told
    assert '{"cause":"sender.preset"}' in told
    assert "12 minutes · ends it with 83 %" in told
    assert "First check: Junctions of the output transistor" in told
    assert "Then somebody else has to be asked, which is put at 200 minutes." in told
    assert "about 37 minutes to be expected, 6 minutes of it the check" in told
    assert "Set it to the power of the rule set." not in told


def test_nothing_wrong_is_said(costed: SetModel) -> None:
    """Without a trouble there is nothing to repair."""
    bench = after(costed)
    shown = Shown(screen="bench", costs=stage_of(bench))
    told = later(bench, shown, "costs", "0")["costs"]
    assert told == "<p>Nothing is known to be wrong yet, so there is nothing to repair.</p>"


def test_at_home_only_what_is_sure_is_told(costed: SetModel) -> None:
    """With the lid on there are no figures to weigh, but plain words once it is time to act."""
    lid_on = {"do": "lid", "lid": "on"}
    bench = after(costed, *FOUND, lid_on)
    assert costs_box(bench, Shown()) is None
    sure = after(costed, *FOUND, said("sender.transistor-junctions", "yes"), lid_on)
    assert sure.step.verdict.kind == "act"
    box = html(costs_box(sure, Shown()))
    assert "How long it will take" in box
    assert "Drive preset turned down: about 10 minutes of work, for somebody used to it." in box
    assert "to be expected" not in box


def test_without_a_table_the_bench_is_as_it_was(small_model: SetModel) -> None:
    """Knowledge that does not tell what repairs take has no such box."""
    assert 'id="costs"' not in html(*bench_screen(after(small_model, *FOUND), Shown()))


def test_where_no_repair_is_worth_trying_it_says_what_handing_on_is_put_at(
    costed: SetModel,
) -> None:
    """Not called repairing: with somebody else asked for two minutes nothing else is cheaper."""
    assert costed.mending is not None
    cheap = replace(costed, mending=replace(costed.mending, hand_over_min=2.0))
    bench = after(cheap, *FOUND)
    told = later(bench, Shown(screen="bench", costs=stage_of(bench)), "costs", "0")["costs"]
    assert "Handing it to somebody else now: about 2 minutes to be expected" in told
    assert (
        "No repair is worth trying yet. The trouble of handing it on is put at 2 minutes." in told
    )
    assert "Repairing now" not in told
