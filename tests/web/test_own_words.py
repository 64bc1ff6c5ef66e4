"""The box for the person's own words: candidates to tick, none ticked by itself."""

import re
from xml.etree.ElementTree import Element

import pytest
from playwright.sync_api import Page, expect

from engine.diagnosis.model import SetModel
from tests.web.driving import case_on_screen, press, start_case
from tests.web.test_views import DARK, after
from web.views.bench import bench_screen
from web.views.desk.screen import desk_screen
from web.views.kit import kit
from web.views.markup import html
from web.views.own.unticked import MOST, unticked
from web.views.own.words import NOTHING, own_words
from web.views.state import Bench, Shown

SENTENCE = "receives fine but nobody hears me, needle doesn't move"
MEANT = ("operating.no-trace-at-others", "meter.meter-on-transmit")
LOG = {"format": 1, "family": "beacon", "inputs": []}
NARROW = {"width": 390, "height": 800}


def boxes(element: Element) -> dict[str, bool]:
    """Return the boxes to tick, and whether they are ticked."""
    inputs = element.iter("input")
    return {str(each.get("id")): each.get("checked") is not None for each in inputs}


def test_nothing_is_proposed_before_anything_is_said(fresh: Bench) -> None:
    """The box stands alone, empty."""
    section = own_words(fresh.model, " ", {})
    assert boxes(section) == {}
    assert 'id="heard"' not in html(section)


def test_candidates_stand_beside_the_words_they_come_from(fresh: Bench) -> None:
    """Not ticked; a tick enters the answer, taking it off withdraws it."""
    section = own_words(fresh.model, "There is no lamp that lights <b>", {})
    assert boxes(section) == {"heard-supply.dark": False}
    text = html(section)
    assert "You said: \u201cno lamp that lights\u201d" in text
    assert "&quot;said&quot;:&quot;yes&quot;" in text
    assert "no lamp that lights &lt;b&gt;</textarea>" in text


def test_words_that_say_nothing_are_met_with_what_to_do(fresh: Bench) -> None:
    """Nothing is guessed."""
    assert NOTHING in html(own_words(fresh.model, "the ewes are in the barn", {}))


def test_words_of_which_nothing_is_ticked_are_brought_up(small_model: SetModel) -> None:
    """On bench, kit and letter, until something was found; not where the words say nothing."""
    said = {"do": "message", "text": "There is no lamp that lights.\nYours"}
    bench = after(small_model, said)
    reminder = "You wrote: “There is no lamp that lights. Yours” Nothing of it is ticked yet"
    for screen in (bench_screen(bench, Shown()), kit(bench), desk_screen(bench, Shown(), LOG)):
        assert reminder in html(*filter(None, screen))
    assert unticked(after(small_model, said, DARK)) is None
    assert unticked(after(small_model, {**said, "text": "the ewes are in the barn"})) is None
    assert unticked(after(small_model)) is None


def test_long_words_are_cut_in_the_reminder(small_model: SetModel) -> None:
    """Enough of them is shown to know them again."""
    told = unticked(after(small_model, {"do": "message", "text": "no lamp lights " * 20}))
    assert told is not None
    (line, *_) = told.itertext()
    assert line.startswith(f"You wrote: “{('no lamp lights ' * 20)[:MOST].rstrip()} …” ")


@pytest.mark.parametrize("leave", ["#to-kit", ".onward button", "#symptoms-to-desk"])
def test_words_are_looked_at_before_they_are_left(opened: Page, leave: str) -> None:
    """Whoever types and goes on is shown what the words mean; the next press goes on."""
    start_case(opened)
    opened.locator("#words").fill(SENTENCE)
    press(opened, opened.locator(leave))
    expect(opened.locator("#heard")).to_be_focused()
    expect(opened.locator("h1")).to_have_text("What is wrong?")
    press(opened, opened.locator(leave))
    expect(opened.locator("#unticked")).to_contain_text(f"You wrote: “{SENTENCE}”")
    press(opened, opened.locator("#to-heard"))
    expect(opened.locator("#heard")).to_be_focused()


@pytest.mark.parametrize("width", [1280, 390])
def test_a_sentence_finds_symptoms_to_tick(opened: Page, width: int) -> None:
    """By keyboard alone, without the network; nothing is entered before a box is ticked."""
    opened.set_viewport_size({**NARROW, "width": width})
    start_case(opened)
    opened.context.set_offline(True)
    opened.locator("#words").focus()
    opened.keyboard.type(SENTENCE)
    opened.keyboard.press("Tab")
    expect(opened.locator("#understand")).to_be_focused()
    opened.keyboard.press("Enter")
    expect(opened.locator("#heard")).to_be_focused()
    for name in MEANT:
        expect(opened.locator(f'[id="heard-{name}"]')).not_to_be_checked()
    expect(opened.locator("#heard")).to_contain_text(re.compile("You said: .nobody hears"))
    (kept,) = case_on_screen(opened)["log"]["inputs"]
    assert (kept["do"], kept["text"]) == ("message", SENTENCE)
    overflow = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert opened.evaluate(overflow) == 0
    press(opened, opened.locator(f'[id="heard-{MEANT[0]}"]'))
    expect(opened.locator(f'[id="heard-{MEANT[0]}"]')).to_be_checked()
    expect(opened.locator(f'[id="tick-{MEANT[0]}"]')).to_be_checked()
    expect(opened.locator("#words")).to_have_value(SENTENCE)
    _, given = case_on_screen(opened)["log"]["inputs"]
    assert (given["check"], given["said"]) == (MEANT[0], "yes")
    opened.context.set_offline(False)
