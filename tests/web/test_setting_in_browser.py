"""Setting a set up in Chromium: by keyboard, what is to be done again, back to the search."""

import pytest
from playwright.sync_api import Page, expect

from tests.web.driving import (
    case_on_screen,
    press,
    settled,
    start_case,
    start_demo,
    take_everything,
)
from tests.web.pdf_text import pdf_text

RAIL, REFERENCE = "regulators.rail-preset", "reference-oscillator.ref-trimmer-set"
VCO = "vco.vco-core"


def to_set_up(page: Page) -> None:
    """Begin a case with a whole bench and open the screen that sets up."""
    start_case(page)
    take_everything(page)
    press(page, page.locator("#to-set-up"))
    expect(page.locator("#title")).to_be_focused()


def enter(page: Page, adjustment: str, *pairs: tuple[str, str]) -> None:
    """Fill the fields of a step one after the other by the tab key, and press Enter."""
    page.locator(f'[id="before-0-{adjustment}"]').focus()
    before = page.locator("html").get_attribute("data-shown")
    texts = [said for pair in pairs for said in pair]
    for number, said in enumerate(texts):
        if number:
            page.keyboard.press("Tab")
        page.keyboard.type(said)
    page.keyboard.press("Enter")
    settled(page, before)


def unfold(page: Page, adjustment: str) -> None:
    """Open a step that is folded up."""
    press(page, page.locator(f'[id="head-{adjustment}"]'))


def state(page: Page, adjustment: str) -> str | None:
    """Return where a step stands."""
    return page.locator(f'[id="step-{adjustment}"]').get_attribute("data-state")


def test_steps_are_made_by_keyboard_alone(opened: Page) -> None:
    """As found, tab, set to, Enter: judged at once, and the next step has the focus."""
    to_set_up(opened)
    enter(opened, RAIL, ("7.2 V", "8.05 V"))
    assert state(opened, RAIL) == "holds"
    expect(opened.locator(f'[id="before-0-{REFERENCE}"]')).to_be_focused()
    expect(opened.locator("#status")).to_contain_text("1 of 37 steps done. Next: Reference trimmer")


def test_a_slip_stays_in_its_field(opened: Page) -> None:
    """What cannot be used is not entered; it can be mended where it stands."""
    to_set_up(opened)
    before = len(case_on_screen(opened)["log"]["inputs"])
    enter(opened, RAIL, ("lots", ""))
    field = opened.locator(f'[id="before-0-{RAIL}"]')
    expect(field).to_be_focused()
    expect(field).to_have_value("lots")
    expect(opened.locator(f'[id="step-{RAIL}"] .wrong')).to_contain_text("That cannot be used")
    assert len(case_on_screen(opened)["log"]["inputs"]) == before


def test_what_was_set_too_early_is_to_be_set_again(opened: Page) -> None:
    """Undo takes the later step back, and with it that it has to be done again."""
    to_set_up(opened)
    unfold(opened, VCO)
    enter(opened, VCO, ("3 V", "3.3 V"), ("2 V", "2 V"))
    assert state(opened, VCO) == "holds"
    enter(opened, RAIL, ("7.2 V", "8 V"))
    assert state(opened, VCO) == "again"
    press(opened, opened.locator("#undo"))
    assert state(opened, VCO) == "holds"
    opened.reload()
    settled(opened)
    press(opened, opened.locator("#to-set-up"))
    assert state(opened, VCO) == "holds"


def test_a_repair_leads_on_to_setting_up_and_the_proof(opened: Page) -> None:
    """From the cause that was mended to the sheet it makes necessary, and on to the proof."""
    start_demo(opened)
    press(opened, opened.locator(".cause-title").first)
    press(opened, opened.locator(".mending button").first)
    press(opened, opened.locator("#then-set-up"))
    expect(opened.locator("#title")).to_have_text("Set it up")
    expect(opened.locator("#sheet-after-repair")).to_have_attribute("aria-pressed", "true")
    few = opened.locator("[data-state]").count()
    press(opened, opened.locator("#sheet-everything"))
    assert opened.locator("[data-state]").count() > few
    press(opened, opened.locator("#then-prove"))
    expect(opened.locator("#title")).to_have_text("Prove the set")


def test_what_will_not_come_right_is_evidence(opened: Page) -> None:
    """The readings become findings about the adjustment put right; the record has it all."""
    to_set_up(opened)
    enter(opened, RAIL, ("7.2 V", "8.05 V"))
    opened.locator(f'[id="stuck-{REFERENCE}"]').check()
    enter(opened, REFERENCE, ("10.2405 MHz", "10.2404 MHz"))
    assert state(opened, REFERENCE) == "stuck"
    press(opened, opened.locator(f'[id="find-{REFERENCE}"]'))
    found = opened.locator("#findings")
    expect(found).to_contain_text("10.2405 MHz")
    expect(found).to_contain_text("10.2404 MHz")
    expect(found).to_contain_text("adjusted")
    press(opened, opened.locator("#to-set-up"))
    assert (state(opened, RAIL), state(opened, REFERENCE)) == ("holds", "to-do")
    press(opened, opened.locator("#to-record"))
    expect(opened.locator("#paper .part-set-up")).to_contain_text("before 7.2 V -> 8.05 V: holds")
    printed = "".join(pdf_text(opened.pdf(format="A4")).split())
    assert "before7.2V" in printed
    assert "8.05V:holds" in printed


@pytest.mark.parametrize("width", [390, 1280])
def test_it_fits_and_can_be_touched(opened: Page, width: int) -> None:
    """Neither screen scrolls sideways; what there is to press is large."""
    opened.set_viewport_size({"width": width, "height": 844})
    to_set_up(opened)
    for screen in ("#to-set-up", "#to-prove"):
        press(opened, opened.locator(screen))
        assert opened.evaluate("document.documentElement.scrollWidth") <= width
        boxes = opened.locator("main :is(button, select, summary):visible").evaluate_all(
            "(all) => all.map((each) => each.getBoundingClientRect().height)"
        )
        assert min(boxes) >= 47.5
