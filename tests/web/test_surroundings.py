"""What holds on every screen: policy, widths, keyboard, paper, no connection."""

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.web.driving import PATIENCE_MS, open_page, press, start_demo
from tests.web.pdf_text import pdf_text
from web.build.packages import sha256

SCREENS = ("home", "symptoms", "kit", "bench", "record")
SMALLEST_TARGET = 48
MOST_TABS = 400


def test_first_screen_is_painted_before_python(page: Page, address: str) -> None:
    """The markup that is served already holds the first screen."""
    page.route("**/pyodide.mjs", lambda route: route.abort())
    page.goto(address)
    expect(page.locator("h1")).to_have_text("Which set is it?")
    expect(page.locator("#demo")).to_be_visible()


def test_failing_runtime_gets_words(page: Page, address: str) -> None:
    """When the runtime cannot be fetched, the page says so and what to do."""
    page.route("**/pyodide.asm.wasm", lambda route: route.abort())
    page.goto(address)
    expect(page.locator("#loading-words")).to_contain_text(
        "Check the connection", timeout=PATIENCE_MS
    )


def test_press_before_python_is_ready_is_kept(
    page: Page, address: str, complaints: list[str]
) -> None:
    """A press while Python still loads is carried out once it is ready."""
    page.goto(address, wait_until="commit")
    page.locator("html[data-theme]").wait_for()  # our script listens; the runtime is on its way
    assert page.locator("html[data-ready]").count() == 0
    page.locator("#demo").click()
    page.locator("#check").wait_for(timeout=PATIENCE_MS)


@pytest.mark.parametrize("width", [390, 1280])
def test_no_screen_scrolls_sideways(opened: Page, width: int) -> None:
    """No screen is wider than its window."""
    opened.set_viewport_size({"width": width, "height": 844})
    start_demo(opened)
    for screen in SCREENS:
        press(opened, opened.locator(f"#to-{screen}"))
        assert opened.evaluate("document.documentElement.scrollWidth") <= width, screen


def test_targets_are_large(opened: Page) -> None:
    """Everything to press is at least 48 px high on a phone."""
    opened.set_viewport_size({"width": 390, "height": 844})
    start_demo(opened)
    for screen in SCREENS:
        press(opened, opened.locator(f"#to-{screen}"))
        heights = opened.locator(
            "button:visible, select:visible, .tick label:visible"
        ).evaluate_all(
            "(all) => all.map((each) => [each.textContent, each.getBoundingClientRect().height])"
        )
        assert [each for each in heights if each[1] < SMALLEST_TARGET - 0.5] == [], screen
        assert len(heights) > 5


def test_keyboard_alone_makes_a_finding(opened: Page) -> None:
    """Tab and Enter reach the worked case, and then an answer."""
    tab_to(opened, "demo")
    opened.keyboard.press("Enter")
    opened.locator("#map svg").wait_for(timeout=PATIENCE_MS)
    before = opened.locator("[data-finding]").count()
    tab_to(opened, "cannot")
    opened.keyboard.press("Enter")
    expect(opened.locator("[data-finding]")).to_have_count(before + 1)
    focused = opened.evaluate("document.activeElement.id")
    assert focused == "check-title"  # the next check is read out


def tab_to(page: Page, name: str) -> None:
    """Press Tab until the element with this id has the focus."""
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == name:
            return
    raise AssertionError(f"{name} cannot be reached with Tab")


def test_paper_holds_the_whole_case(opened: Page) -> None:
    """The printed page has set, findings, causes, advice and cautions, from any screen."""
    start_demo(opened)
    expect(opened.locator("#record h2")).to_have_count(1)
    findings = opened.locator("[data-finding] b").all_inner_texts()
    printed = without_spaces(pdf_text(opened.pdf()))
    assert findings
    for words in ("Three-crystal FM set", "Ranked causes", "Advice", "Cautions", *findings):
        assert without_spaces(words) in printed


def without_spaces(text: str) -> str:
    """Return the text without white space: a PDF places letters, not words."""
    return re.sub(r"\s", "", text)


def test_works_without_connection(first_visit: Page, context: BrowserContext, address: str) -> None:
    """Once everything is stored the page starts and answers without a connection."""
    expect(first_visit.locator("#offline-words")).to_contain_text(
        "Ready offline: the page.", timeout=PATIENCE_MS
    )
    start_demo(first_visit)
    expect(first_visit.locator("#offline-words")).to_contain_text("the page and 1 of ")
    context.set_offline(True)
    open_page(first_visit, address)
    first_visit.locator("#cannot").click()
    expect(first_visit.locator("[data-finding]").first).to_contain_text("could not be checked")


def test_looks_go_round(opened: Page) -> None:
    """The look is changed by a button and kept."""
    names = []
    for _ in range(4):
        opened.locator("#theme").click()
        names.append(opened.locator("html").get_attribute("data-theme"))
    assert names == ["light", "dark", "sunlight", "device"]


def test_manifest_holds_the_hash_of_every_file(site: Path) -> None:
    """The build manifest names every other file with its true hash."""
    manifest = json.loads((site / "build-manifest.json").read_text(encoding="utf-8"))
    paths = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    del paths["build-manifest.json"]
    assert manifest["files"] == {name: sha256(path.read_bytes()) for name, path in paths.items()}
