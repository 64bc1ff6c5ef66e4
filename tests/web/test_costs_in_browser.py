"""Repair now or measure on, in Chromium: asked for, shown, and gone with the next answer."""

from playwright.sync_api import Page, expect

from tests.web.driving import press, start_demo


def test_the_minutes_come_when_asked_for_and_go_with_the_next_answer(opened: Page) -> None:
    """The worked case: the figures appear, lead to a check, and the answer is not kept waiting."""
    start_demo(opened)
    costs = opened.locator("#costs")
    expect(costs.locator("#costs-told")).to_have_count(0)
    press(opened, costs.get_by_role("button", name="Work out the minutes"))
    expect(opened.locator("#costs-title")).to_be_focused()
    expect(costs.locator("#costs-told .cheapest")).to_contain_text("Cheapest: ")
    expect(costs.locator("#costs-told ol > li").first).to_contain_text("ends it with")
    check = costs.locator("#costs-told ul .pick").first
    title = check.inner_text()
    press(opened, check)
    expect(opened.locator("#check-title")).to_have_text(title)
    expect(costs.locator("#costs-told .cheapest")).to_be_visible()
    press(opened, opened.locator("#cannot"))
    expect(costs.get_by_role("button", name="Work out the minutes")).to_be_visible()
    expect(costs.locator("#costs-told")).to_have_count(0)
