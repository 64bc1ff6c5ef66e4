"""When to stop, how it decides, and the walk through the invented case."""

import re
from dataclasses import replace

import pytest

from engine.diagnosis.case import Kit
from engine.diagnosis.model import SetModel
from tests.conftest import ModelOf
from tests.web.test_words_for_beginners import found
from web.answering import bench_of
from web.replaying import replay
from web.views.causes import causes
from web.views.decides import decides
from web.views.ending import ending
from web.views.markup import html
from web.views.state import Bench, Shown
from web.views.stopping import asks_for, when_to_stop
from web.views.walk import STEPS, walk, walk_log
from web.walking import WALK_VERBS

BENCH = Kit(frozenset(("multimeter", "oscilloscope")), "off")


def test_harmless_checks_have_no_box(small_model: SetModel) -> None:
    """Eyes, ears and a closed lid."""
    check = small_model.checks["supply.dark"]
    assert when_to_stop(Kit(frozenset(), "on"), check) is None


def test_the_box_is_open_for_whoever_has_little(small_model: SetModel) -> None:
    """It says what the step takes, and whom to ask; with a whole bench it is folded."""
    keyed = replace(small_model.checks["supply.dark"], lid="off", mode="transmit", how="Solder it.")
    assert asks_for(keyed) == ("the lid off", "the set to send", "a soldering iron")
    opened = when_to_stop(Kit(frozenset(), "on"), keyed)
    folded = when_to_stop(BENCH, keyed)
    assert opened is not None
    assert folded is not None
    assert opened.get("open") == ""
    assert folded.get("open") is None
    assert "this step takes the lid off, the set to send and a soldering iron" in html(opened)
    assert "Ask a radio club, or a repairer who is licensed or qualified" in html(opened)


def test_nobody_who_skips_the_kit_is_asked_for_tools(small_model: SetModel) -> None:
    """A case without a word about instruments has none, and its lid is on."""
    bench = found(small_model, {}, replay(small_model, []).case.kit)
    assert bench.step.checks
    for each in bench.step.checks:
        assert small_model.checks[each.id].lid == "on"
        assert not small_model.checks[each.id].needs


def test_the_end_of_a_kit_says_what_to_tell_whom(small_model: SetModel) -> None:
    """With the record's own words to copy."""
    done = {"supply.dark": "yes", "sender.weak": "nothing", "past.fell": "no"}
    part = ending(found(small_model, done))
    assert part is not None
    assert "To ask: a radio club near you" in html(part)
    assert 'data-act="copy">Copy what to tell them</button>' in html(part)


def test_how_it_decides_has_the_numbers_of_the_case(small_model: SetModel) -> None:
    """They multiply from the first chance to the one on the bench."""
    bench = found(small_model, {"supply.dark": "yes"}, BENCH)
    shown = html(*decides(bench, Shown(screen="decides")))
    leading = next(each for each in bench.step.causes if each.kind != "event")
    weighed = re.findall(r"odds (times|divided by) ([\d.,]+): now ([\d.]+) %", shown)
    assert len(weighed) == 1
    (way, factor, now) = weighed[0]
    odds = leading.prior / (1 - leading.prior)
    odds = odds * float(factor) if way == "times" else odds / float(factor)
    assert odds / (1 + odds) == pytest.approx(leading.probability, rel=0.05)  # two digits shown
    assert float(now) / 100 == pytest.approx(leading.probability, abs=0.006)
    check = bench.check_at_hand(Shown())
    assert check is not None
    assert f"“{check.title}” is expected to clear up " in shown
    assert "From 50 % for one cause on" in shown
    assert "From 90 % on it says to act" in shown
    assert "or at 97 %" in shown


def test_how_it_decides_before_anything_was_found(small_model: SetModel) -> None:
    """And the way there stands below the causes."""
    bench = found(small_model, {}, BENCH)
    assert "Nothing was found yet" in html(*decides(bench, Shown(screen="decides")))
    assert 'id="to-decides"' in html(causes(bench, Shown(screen="bench")))


def test_the_walk_shows_real_screens_that_cannot_be_pressed(model_of: ModelOf) -> None:
    """Nothing in them is an input, fills itself, or has the name of a part of the page."""
    model = model_of("three-crystal-fm")
    for number, (_, inputs, title, part, words) in enumerate(STEPS):
        log = walk_log(number)
        assert len(log["inputs"]) == inputs  # type: ignore[arg-type]
        bench: Bench = bench_of(model, replay(model, log["inputs"]))  # type: ignore[arg-type]
        guide, walked = walk(bench, Shown(screen="walk", walk=number))
        assert f">{title}</h1>" in html(guide)
        assert words.split(".")[0] in html(guide)
        assert walked.get("inert") == ""
        assert html(walked).count(" pointed") == (1 if part else 0)
        assert not re.search(r" (id|data-input|data-view|data-act|data-later)=", html(walked))
        assert ("Next" in html(guide)) == (number < len(STEPS) - 1)


def test_the_steps_of_the_walk_end_where_the_case_ends() -> None:
    """Whatever number is asked for."""
    assert walk_log(-3) == walk_log(0)
    assert walk_log(99) == walk_log(len(STEPS) - 1)
    assert len(walk_log(99)["inputs"]) == 8  # type: ignore[arg-type]


def test_the_verb_takes_the_number_as_the_page_sends_it() -> None:
    """As text, out of an attribute."""
    assert WALK_VERBS["walk"]({"step": "2"})["log"] == walk_log(2)
