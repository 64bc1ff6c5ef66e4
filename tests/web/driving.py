"""Drives the page in Chromium, the way a person would."""

import os
from typing import Any

from playwright.sync_api import Locator, Page, ViewportSize, expect

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
WINDOW: ViewportSize = {"width": 1280, "height": 900}
# Watches the marks the page sets on <html>; asking again and again would take time from its Python.
AWAIT = """([mark, before, patience]) => new Promise((resolve, reject) => {
  const {dataset} = document.documentElement;
  const isNew = () => dataset.ready && dataset.shown !== before;
  const isThere = () => isNew() && dataset[mark] === dataset.shown;
  if (isThere()) return resolve();
  const end = (then) => { watcher.disconnect(); clearTimeout(clock); then(); };
  const watcher = new MutationObserver(() => isThere() && end(resolve));
  const marks = () => `ready ${dataset.ready}, shown ${dataset.shown}, ${mark} ${dataset[mark]}`;
  const tell = () => reject(new Error(`waited ${patience} ms: ${marks()}`));
  const clock = setTimeout(() => end(tell), patience);
  watcher.observe(document.documentElement, {attributes: true});
})"""


# Every case is forgotten, the one on screen by the page's own act, which begins a new view as well;
# where there is none, one is put there for the act to work on.
CLEAR_AWAY = """(id) => {
  localStorage.clear();
  document.documentElement.dataset.theme = "device";
  window.confirm = () => true;
  const button = document.createElement("button");
  Object.assign(button.dataset, {act: "forget-case", id});
  document.body.append(button);
  button.click();
  button.remove();
}"""
EMPTY = """(left) => new Promise((resolve, reject) => {
  const request = indexedDB.open("dryjoint", 1);
  request.onupgradeneeded = () => request.result.createObjectStore("cases", {keyPath: "id"});
  request.onerror = () => reject(request.error);
  request.onsuccess = () => {
    const transaction = request.result.transaction("cases", "readwrite");
    const store = transaction.objectStore("cases");
    store.clear();
    left.forEach((record) => store.put(record));
    transaction.onabort = () => reject(transaction.error);
    transaction.oncomplete = () => { request.result.close(); resolve(); };
  };
})"""


def open_page(page: Page, url: str) -> None:
    """Open the page and wait until Python is ready."""
    page.goto(url)
    page.locator("html[data-ready]").wait_for(timeout=PATIENCE_MS)


def clear_away(page: Page) -> None:
    """Make the page as it was before anything was entered, without starting it again."""
    page.context.set_offline(False)
    page.set_viewport_size(WINDOW)
    settled(page)
    before = page.locator("html").get_attribute("data-shown") or ""
    on_screen = case_on_screen(page)
    held = {"id": on_screen["id"] if on_screen else "none", "log": {"inputs": []}, "undone": []}
    page.evaluate(EMPTY, [held])
    page.evaluate(CLEAR_AWAY, held["id"])
    settled(page, before)
    page.evaluate(EMPTY, [])
    assert case_on_screen(page) is None
    expect(page.locator(f"#family-{FAMILY}")).to_be_visible()


def settled(page: Page, before: str | None = None) -> None:
    """Wait until everything that comes after the repaint is there, of a repaint after `before`."""
    page.locator("html[data-ready]").wait_for(timeout=PATIENCE_MS)
    page.evaluate(AWAIT, ["settled", before, PATIENCE_MS])


def press(page: Page, what: Locator) -> None:
    """Press something and wait until its answer is on screen, complete."""
    before = page.locator("html").get_attribute("data-shown") or ""
    what.click()
    settled(page, before)


def pass_by(page: Page, what: Locator) -> None:
    """Press something and wait until its answer is painted; nobody stays for what comes later."""
    before = page.locator("html").get_attribute("data-shown") or ""
    what.click()
    page.evaluate(AWAIT, ["shown", before, PATIENCE_MS])


def foreseen(page: Page) -> None:
    """Wait until the page has looked ahead at what may be answered, as it does at the bench."""
    page.evaluate(AWAIT, ["foreseen", None, PATIENCE_MS])


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
    pass_by(page, page.locator("#to-kit"))
    pass_by(page, page.get_by_text("A whole bench"))
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
