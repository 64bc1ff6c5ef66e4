"""The shelf of cases without a mouse, and the picker of files, which has a look of its own."""

from playwright.sync_api import Page, expect

from tests.web.driving import settled
from tests.web.test_shelf_in_browser import kept
from tests.web.test_whole_stories import by_key, reach

OUTLINE = "(id) => getComputedStyle(document.querySelector(`[for=${id}]`)).outlineStyle"


def has_focus(page: Page, selector: str) -> None:
    """Demand that what the selector names has the focus."""
    expect(page.locator(selector)).to_be_focused()


def test_a_case_is_written_found_deleted_and_opened_by_keyboard(opened: Page) -> None:
    """Each press leaves the focus where the next step begins."""
    by_key(opened, "#demo")
    by_key(opened, "#to-shelf")
    has_focus(opened, "#title")
    by_key(opened, '[id^="edit-"]')
    has_focus(opened, "#edit-title")
    opened.keyboard.type("Blue set")
    reach(opened, "#edit-status")
    opened.keyboard.press("w")  # the status that begins with it
    by_key(opened, ".about-case button.main")
    has_focus(opened, f'[id="edit-{kept(opened)[0]["id"]}"]')
    (record,) = kept(opened)
    assert (record["title"], record["status"]) == ("Blue set", "waiting")
    reach(opened, "#shelf-filter")
    opened.keyboard.type("nowhere")
    expect(opened.locator("[data-nothing]")).to_be_visible()
    opened.keyboard.press("Control+a")
    opened.keyboard.type("blue")
    expect(opened.locator(".case:visible")).to_have_count(1)
    by_key(opened, '[data-do="delete"]')
    has_focus(opened, "#title")
    reach(opened, "#bin summary")
    opened.keyboard.press("Enter")
    by_key(opened, '[data-do="bring-back"]')
    has_focus(opened, f'[id="edit-{record["id"]}"]')
    by_key(opened, '[data-do="open"]')
    expect(opened.locator("#verdict")).to_be_visible()


def test_the_picker_of_files_shows_where_the_focus_is(opened: Page) -> None:
    """The picker cannot be seen; the label over it is outlined, and a key opens the choice."""
    before = opened.locator("html").get_attribute("data-shown") or ""
    reach(opened, "#case-file")
    assert opened.evaluate(OUTLINE, "case-file") == "solid"
    with opened.expect_file_chooser() as choosing:
        has_focus(opened, "#case-file")  # an answer of the browser: it listens for a chooser now
        opened.keyboard.press("Enter")
    assert not choosing.value.is_multiple()
    choosing.value.set_files([])
    opened.keyboard.press("Tab")
    assert opened.evaluate(OUTLINE, "case-file") == "none"
    assert opened.locator("html").get_attribute("data-shown") == before
    settled(opened)
