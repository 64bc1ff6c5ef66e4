"""Every screen in every look, narrow and wide, held against the rules of axe-core."""

from collections.abc import Mapping, Sequence
from typing import Any

from playwright.sync_api import Page

from tests.web.coming_back import take_in
from tests.web.driving import press
from web.build.packages import AXE, fetch
from web.build.parts import ROOT

WIDTHS = (390, 1280)
WIDEST = 1920
# A screen, and what to press one after the other to come there from the one above.
SCREENS = {
    "first screen": (),
    "knowledge, contents": ('[id^="leaves-of-"]',),
    "knowledge, a block": ('main [data-view*="block/"]',),
    "knowledge, a cause": ('main [data-view*="cause/"]',),
    "frequency plan": ("#leave-leaf", '[id^="plan-of-"]'),
    "own knowledge": ("text=Back to the sets", "#to-own"),
    "bench, kind not known": ("text=Back to the sets", "#not-sure button", "#to-bench"),
    "bench": ("#to-home", "#demo"),
    "what a repair costs": ("#costs button",),
    "an opened cause": (".cause-title",),
    "after a repair": (".mending button",),
    "an opened block": (".block-list button",),
    "every check and cause": ("#more-checks", "#more-causes"),
    "symptoms": ("#to-symptoms",),
    "kit": ("#to-kit",),
    "set up, nothing done": ("#to-set-up",),
    "set up, a step left out": ('button:text("Leave it out")',),
    "proof, nothing read": ("#to-prove",),
    "proof, a point that fails": ("#yes-squelch-range", "#no-every-channel"),
    "record": ("#to-record",),
    "closing a case": ("#to-closing",),
    "shelf of cases": ("#to-shelf",),
    "what is written about a case": ('[id^="edit-"]',),
    "our own counts": ("#to-counts",),
    "first screen with a case": ("#to-home",),
}
# The same for a set that comes back, from the shelf on.
COMING_BACK = {
    "shelf with a set that comes back": (),
    "a set that was here before": ("#case-now button.main",),
    "its past counted": ("#history",),
    "the record with its past": ("#to-record",),
}
EVERYTHING = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# A look changes colours only, so in the others contrast alone is measured; in sunlight 7 to 1. The
# stricter rule passes over what the other one finds, so both are held.
CONTRAST = ["color-contrast"]
RULES = {
    "light": EVERYTHING,
    "dark": CONTRAST,
    "sunlight": [*CONTRAST, "color-contrast-enhanced"],
}
SHORTEN = """() => document
  .querySelectorAll("li:nth-child(n + 13), tr:nth-child(n + 13)").forEach((row) => row.remove())"""
INSPECT = """async ([look, rules]) => {
  document.documentElement.dataset.theme = look;
  const found = await axe.run({runOnly: rules, resultTypes: ["violations"]});
  return {
    broken: found.violations.flatMap((rule) => rule.nodes.map((node) =>
      `${rule.id}: ${node.html.slice(0, 160)} ${[...node.any, ...node.all][0]?.message ?? ""}`)),
    kept: found.passes.length,
  };
}"""


def test_no_screen_breaks_a_rule_in_any_look(opened: Page) -> None:
    """No rule of use by everybody is broken on any screen, and none is wider than its window."""
    assert complaints_on(opened, SCREENS) == []


def test_no_screen_of_a_set_that_comes_back_breaks_one(opened: Page) -> None:
    """Nor do those on which its past is told and counted."""
    take_in(opened)
    assert complaints_on(opened, COMING_BACK) == []


def complaints_on(page: Page, screens: Mapping[str, Sequence[str]]) -> list[str]:
    """Return what is wrong with screens, each with its name."""
    page.evaluate((fetch(AXE, ROOT / ".cache") / "axe.min.js").read_text(encoding="utf-8"))
    return [f"{name}, {each}" for name in screens for each in complaints_of(page, screens[name])]


def complaints_of(page: Page, presses: Sequence[str]) -> list[str]:
    """Go to a screen; return what is wrong with it, with the look and the width.

    Widths are taken of the whole. Of a long list axe judges the first dozen rows: the others are
    made by the same lines of code, and come back with the next press.
    """
    for selector in presses:
        press(page, page.locator(selector).locator("visible=true").first)
    broken = [each for width in (*WIDTHS, WIDEST) for each in too_wide(page, width)]
    page.evaluate(SHORTEN)
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        for look, rules in RULES.items():
            found: Any = page.evaluate(INSPECT, [look, rules])
            assert found["kept"] > 0, "axe looked at nothing"
            broken += [f"{look}, {width} px: {each}" for each in found["broken"]]
    return broken


def too_wide(page: Page, width: int) -> list[str]:
    """Return a complaint when the page would scroll sideways in a window of that width."""
    page.set_viewport_size({"width": width, "height": 900})
    wide = page.evaluate("document.documentElement.scrollWidth")
    return [f"{wide} px wide in a window of {width}"] if wide > width else []
