"""Drives the page in Chromium, the way a person would."""

import os
from typing import Any

from playwright.sync_api import Locator, Page, expect

from tests.conftest import FAMILY

LAUNCH: dict[str, Any] = {
    "executable_path": os.environ.get("DRYJOINT_BROWSER", "/usr/bin/chromium"),
    "args": [
        "--no-sandbox",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--no-first-run",
    ],
}
PATIENCE_MS = 60_000


def open_page(page: Page, url: str) -> None:
    """Open the page and wait until Python is ready."""
    page.goto(url)
    page.locator("html[data-ready]").wait_for(timeout=PATIENCE_MS)


def settled(page: Page) -> None:
    """Wait until everything that comes after the repaint is there."""
    page.locator("html[data-ready]").wait_for(timeout=PATIENCE_MS)
    root = page.locator("html")
    while root.get_attribute("data-settled") != root.get_attribute("data-shown"):
        page.wait_for_timeout(5)


def press(page: Page, what: Locator) -> None:
    """Press something and wait until its answer is on screen, complete."""
    before = page.locator("html").get_attribute("data-shown") or ""
    what.click()
    expect(page.locator("html")).not_to_have_attribute("data-shown", before, timeout=PATIENCE_MS)
    settled(page)


def foreseen(page: Page) -> None:
    """Wait until the page has looked ahead at what may be answered, as it does at the bench."""
    root = page.locator("html")
    while root.get_attribute("data-foreseen") != root.get_attribute("data-shown"):
        page.wait_for_timeout(5)


def start_case(page: Page) -> None:
    """Start a case of the first set."""
    page.locator(f"#family-{FAMILY}").get_by_text("This is the set").click()
    page.locator("#filter").wait_for(timeout=PATIENCE_MS)


def tick(page: Page, symptom: str) -> None:
    """Start a case and tick one symptom."""
    start_case(page)
    press(page, page.locator(f'[id="tick-{symptom}"]'))


def take_everything(page: Page) -> None:
    """Say that every instrument is there and the lid may come off."""
    press(page, page.locator("#to-kit"))
    press(page, page.get_by_text("A whole bench"))
    press(page, page.locator("#lid"))


def pick_check(page: Page, check: str) -> None:
    """Choose a check from the list of all."""
    press(page, page.locator("#more-checks"))
    press(page, page.locator(f'[id="further-{check}"] button'))
    expect(page.locator("#check")).to_have_attribute("data-check", check)


def give(page: Page, said: str, fallback: bool = False) -> None:
    """Answer the check at hand; with `fallback` by its last outcome, or the low end of its span."""
    check = page.locator("#check").get_attribute("data-check")
    field = page.locator("#reading")
    if field.count():
        hint = page.locator("#reading-hint").inner_text()
        field.fill(hint.split()[1] if fallback else said)
        press(page, page.locator("#check .answers button[type=submit]"))
    else:
        answers = page.locator("#check .outcomes button")
        press(page, answers.last if fallback else page.locator(f'[id="answer-{said}"]'))
    expect(page.locator(f'[data-finding="{check}"]')).to_have_count(1)


def start_demo(page: Page) -> None:
    """Load the worked case."""
    page.locator("#demo").click()
    page.locator("#map svg").wait_for(timeout=PATIENCE_MS)
    settled(page)


def case_on_screen(page: Page) -> Any:
    """Return the case the page holds."""
    return page.evaluate(f"import('{page_script(page)}').then((m) => m.caseOnScreen())")


def numbers(page: Page) -> Any:
    """Return the posteriors and gains of the case on screen, as Python in the page has them."""
    question = "m.ask('numbers', {log: m.caseOnScreen().log})"
    return page.evaluate(f"import('{page_script(page)}').then((m) => {question})")


def page_script(page: Page) -> str:
    """Return the address of page.js; importing it again gives the running module."""
    app = page.locator("html").get_attribute("data-app")
    return f"/{app}/page.js"
