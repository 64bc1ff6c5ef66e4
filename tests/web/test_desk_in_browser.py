"""A stranger's message, a letter, the owner's sheet and the answer: once round, in a browser."""

import re

from playwright.sync_api import Locator, Page, expect

from tests.web.driving import PATIENCE_MS, case_on_screen, open_page, press, settled, start_case

MESSAGE = (
    "Hello,\nI bought an old set at the market. It receives fine but nobody hears me, and the "
    "needle doesn't move when I talk.\nI have a multimeter.\n\n> You wrote: the fuse has gone?"
)
MEANT = "operating.no-trace-at-others"
PHONE = {"width": 390, "height": 800}


def no_wider_than_the_screen(page: Page) -> None:
    """Nothing has to be scrolled sideways for."""
    overflow = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(overflow) == 0


def letter_on(page: Page) -> Locator:
    """Return the text that is ready to be sent."""
    return page.locator("#letter")


def write_to_the_owner(page: Page) -> str:
    """Paste the message, confirm what it says, write the letter; return its link."""
    start_case(page)
    page.locator("#words").fill(MESSAGE)
    press(page, page.locator("#understand"))
    press(page, page.locator(f'[id="heard-{MEANT}"]'))
    press(page, page.locator("#heard-multimeter"))
    expect(page.locator("#words")).to_have_value(MESSAGE)
    press(page, page.locator("#symptoms-to-desk"))
    letter = letter_on(page).input_value()
    press(page, page.locator("#copy-letter"))
    assert page.evaluate("navigator.clipboard.readText()") == letter
    (link,) = re.findall(r"^http\S+$", letter, re.MULTILINE)
    return str(link)


def answer_on_a_phone(page: Page, link: str) -> str:
    """Open the link as the owner does, answer the first question; return the text to send."""
    page.set_viewport_size({**PHONE, "width": 390})
    page.goto(link)
    page.locator("#fill").wait_for(timeout=PATIENCE_MS)
    settled(page)
    no_wider_than_the_screen(page)
    page.locator("fieldset").first.locator("label").nth(1).click()
    press(page, page.locator("#fill"))
    press(page, page.locator("#show-qr"))
    expect(page.locator("svg.qr path")).to_be_visible()
    no_wider_than_the_screen(page)
    return letter_on(page).input_value()


def test_once_round_by_letter(opened: Page, address: str) -> None:
    """The owner's answers come back as text and as a link; one step of undo takes them away."""
    opened.context.grant_permissions(["clipboard-read", "clipboard-write"])
    link = write_to_the_owner(opened)
    assert link.startswith(f"{address}/#dj1.") or link.startswith(f"{address}#dj1.")
    assert case_on_screen(opened)["status"] == "waiting"
    owner = opened.context.browser.new_context()  # type: ignore[union-attr]
    text = answer_on_a_phone(owner.new_page(), link)
    owner.close()
    before = len(case_on_screen(opened)["log"]["inputs"])
    opened.locator("#reply").fill(text)
    press(opened, opened.locator("#read-reply"))
    press(opened, opened.locator("#enter"))
    reply = case_on_screen(opened)["log"]["inputs"][before]
    assert (reply["do"], reply["text"], len(reply["answers"])) == ("reply", text, 1)
    assert case_on_screen(opened)["status"] == "open"
    press(opened, opened.locator("#undo"))
    assert len(case_on_screen(opened)["log"]["inputs"]) == before
    answered = text.split()[-1]
    opened.evaluate(f"location.hash = '{answered[answered.index('#') :]}'")
    expect(opened.locator("#read")).to_be_visible(timeout=PATIENCE_MS)
    assert "#dj1" not in opened.url


def test_a_half_filled_sheet_outlasts_a_reload(opened: Page) -> None:
    """What the owner chose is there again once the page is loaded anew."""
    opened.context.grant_permissions(["clipboard-read", "clipboard-write"])
    link = write_to_the_owner(opened)
    browser = opened.context.browser
    assert browser is not None
    owner = browser.new_context()
    page = owner.new_page()
    page.goto(link)
    page.locator("#fill").wait_for(timeout=PATIENCE_MS)
    settled(page)
    page.locator("fieldset").first.locator("label").nth(1).click()
    page.reload()
    page.locator("#fill").wait_for(timeout=PATIENCE_MS)
    settled(page)
    chosen = page.locator("fieldset").first.locator("input")
    expect(chosen.nth(1)).to_be_checked()
    owner.close()


def test_a_case_by_link_replaces_none(opened: Page, address: str) -> None:
    """It is shown, then opened beside the one there was; a damaged one gets a sentence."""
    start_case(opened)
    press(opened, opened.locator(f'[id="tick-{MEANT}"]'))
    press(opened, opened.locator("#symptoms-to-desk"))
    opened.locator("#hand-on summary").click()
    link = opened.locator("#case-link").input_value()
    fragment = link[link.index("#") :]
    opened.evaluate(f"location.hash = '{fragment[:-9]}'")
    expect(opened.locator("#status")).to_contain_text("This link is damaged or was cut short")
    opened.evaluate(f"location.hash = '{fragment}'")
    opened.locator("#open-linked").wait_for(timeout=PATIENCE_MS)
    first = case_on_screen(opened)
    press(opened, opened.locator("#open-linked"))
    second = case_on_screen(opened)
    assert first["id"] != second["id"]
    checks = [given.get("check") for given in second["log"]["inputs"]]
    assert checks == [given.get("check") for given in first["log"]["inputs"]]
    open_page(opened, address)
    settled(opened)
    press(opened, opened.locator("#to-home"))
    expect(opened.locator(".kept li")).to_have_count(2)
