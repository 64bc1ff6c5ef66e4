"""A set that comes back, in Chromium: told on shelf and bench, counted only by a person's leave."""

from playwright.sync_api import Page, expect

from tests.web.coming_back import CAUSE, TITLE, open_case, take_in
from tests.web.driving import case_on_screen, numbers, press, settled


def chance(page: Page) -> float:
    """Return how likely the cause of the earlier case is now."""
    return float(numbers(page)["causes"][CAUSE])


def test_its_past_counts_by_a_switch_alone(opened: Page) -> None:
    """Told at once and not counted; switched on it is marked and the figures move; undo undoes."""
    take_in(opened)
    told = f"2025-11-20, Set 7, 2025: {TITLE}. Put right: {TITLE} (replaced)."
    expect(opened.locator("#case-now")).to_contain_text("Here before")
    expect(opened.locator("#case-then")).not_to_contain_text("Here before")
    open_case(opened, 2026)
    expect(opened.locator("#here-before")).to_contain_text(told)
    expect(opened.locator("#history")).not_to_be_checked()
    before = chance(opened)
    press(opened, opened.locator("#history"))
    expect(opened.locator("#history")).to_be_checked()
    expect(opened.locator("main")).to_contain_text("an earlier case of this very set changed")
    assert chance(opened) < 0.5 * before
    (visit,) = case_on_screen(opened)["log"]["inputs"][-1]["visits"]
    assert (visit["causes"], visit["replaced"]) == ([CAUSE], [CAUSE])
    press(opened, opened.locator("#to-record"))
    expect(opened.locator("#paper")).to_contain_text(told)
    expect(opened.locator("#paper")).to_contain_text("Owner's reference: Upper fold")
    press(opened, opened.locator("#to-bench"))
    shown = opened.locator("html").get_attribute("data-shown") or ""
    opened.locator("#undo").click()
    settled(opened, shown)
    expect(opened.locator("#history")).not_to_be_checked()
    assert chance(opened) == before


def test_an_answer_keeps_the_card(opened: Page) -> None:
    """What the shelf tells is there after an entry, too."""
    take_in(opened)
    open_case(opened, 2026)
    press(opened, opened.locator("#cannot"))
    expect(opened.locator("#here-before")).to_be_visible()
