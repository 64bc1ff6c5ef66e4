"""A beginner's way in a real browser: a word, a picture, a reason, a walk, and the own case."""

from playwright.sync_api import Page, expect

from tests.web.driving import case_on_screen, open_page, press, settled, start_demo


def test_words_pictures_reasons_and_the_walk(page: Page, address: str) -> None:
    """Each opens by keyboard or press, closes again, and the person's own case is untouched."""
    open_page(page, address)
    start_demo(page)
    own = case_on_screen(page)

    word = page.locator("#check button.word:visible").first
    meaning = page.locator(f"[id='{word.get_attribute('popovertarget')}']")
    expect(meaning).to_be_hidden()
    word.focus()
    page.keyboard.press("Enter")
    expect(meaning).to_be_visible()
    page.keyboard.press("Escape")
    expect(meaning).to_be_hidden()
    expect(word).to_be_focused()

    page.locator("#picture summary").first.click()
    expect(page.locator("#picture svg").first).to_be_visible()

    press(page, page.locator("#to-decides"))
    expect(page.locator("#title")).to_have_text("How does it decide?")
    expect(page.locator(".deciding").nth(1).locator("li")).to_have_count(5)
    press(page, page.get_by_role("button", name="Back to the bench"))

    page.locator("#to-home").click()
    page.locator("#walk").click()
    for title in ("What is wrong", "What you have", "The bench"):
        expect(page.locator("#walk-title")).to_have_text(title)
        expect(page.locator("#walk-title")).to_be_focused()
        page.locator("#walk-next").focus()
        page.keyboard.press("Enter")
    page.locator("#walk-leave").click()
    settled(page)
    expect(page.locator("#title")).to_be_focused()
    assert case_on_screen(page) == own
