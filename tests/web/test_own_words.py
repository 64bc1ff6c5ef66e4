"""The box for the person's own words: candidates to tick, none ticked by itself."""

import re
from xml.etree.ElementTree import Element

import pytest
from playwright.sync_api import Page, expect

from tests.web.driving import case_on_screen, press, start_case
from web.views.markup import html
from web.views.own.words import NOTHING, own_words
from web.views.state import Bench

SENTENCE = "receives fine but nobody hears me, needle doesn't move"
MEANT = ("operating.no-trace-at-others", "meter.meter-on-transmit")
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
