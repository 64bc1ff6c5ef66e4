"""Measures the page in Chromium: `python -m tests.web.bench_browser`. A benchmark, not a test.

Cold boot is compared with a bare page that only starts the same runtime, in the same run, each with
a fresh browser, and so is the first paint; answer-to-repaint is what the page itself measures from
press to paint. Both are measured with the processor four times slower as well, worker and all.
"""

import argparse
import os
import platform
import shutil
import tempfile
from collections.abc import Callable, Mapping
from contextlib import ExitStack
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from statistics import median
from typing import TypeVar

from playwright.sync_api import Browser, Locator, Page, Playwright, sync_playwright

from tests.web.driving import LAUNCH, foreseen, press, settled, start_demo
from web.build import build_site
from web.build.measured import Measurement, Row, keep_measurement, row_of
from web.build.packages import PYODIDE, fetch
from web.build.site import ROOT
from web.serving import served

T = TypeVar("T")
FROM_FIELD_TO_BUTTON_MS = 300  # a quick hand, from the last digit to the button

BARE_WORKER = """
const {loadPyodide} = await import("./package/pyodide.mjs");
await loadPyodide({indexURL: new URL("./package/", self.location.href).href});
postMessage("ready");
"""
BARE_PAGE = """<!doctype html><html><head><meta charset="utf-8"><title>bare</title>
<script type="module" src="bare.js"></script></head><body><h1>Bare</h1></body></html>"""
SLOW = 4  # times slower
FIRST_PAINT = """() => new Promise((resolve) => new PerformanceObserver((list) => {
  const found = list.getEntriesByName("first-contentful-paint")[0];
  if (found) resolve([found.startTime, document.documentElement.dataset.ready !== undefined]);
}).observe({type: "paint", buffered: true}))"""
BARE_SCRIPT = """
const worker = new Worker("bare-worker.js", {type: "module"});
worker.onmessage = () => { document.documentElement.dataset.ready = "true"; };
"""


def write_bare_page(folder: Path, stdlib: Path | None = None) -> Path:
    """Write a page that starts the runtime and nothing else, as shipped or with our library."""
    shutil.copytree(fetch(PYODIDE, ROOT / ".cache"), folder / "package")
    if stdlib:
        shutil.copyfile(stdlib, folder / "package" / "python_stdlib.zip")
    (folder / "index.html").write_text(BARE_PAGE, encoding="utf-8")
    (folder / "bare.js").write_text(BARE_SCRIPT, encoding="utf-8")
    (folder / "bare-worker.js").write_text(BARE_WORKER, encoding="utf-8")
    return folder


def boot_ms(page: Page, url: str) -> float:
    """Return the time from navigation to ready, in ms."""
    page.goto(url, wait_until="commit")
    page.locator("html[data-ready]").wait_for(timeout=120_000)
    return float(page.evaluate("performance.now()"))


def paint_ms(page: Page, url: str) -> float:
    """Return the time from navigation to the first paint, in ms; Python must not be there yet."""
    page.goto(url, wait_until="commit")
    when, is_ready = page.evaluate(FIRST_PAINT)
    assert not is_ready or page.title() == "bare", "Python was there before the first paint"
    return float(when)


def slowed(page: Page, measure: Callable[[Page], T]) -> T:
    """Return what `measure` gives on a processor that many times slower."""
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOW})
    return measure(page)


def fresh(playwright: Playwright, measure: Callable[[Page], T]) -> T:
    """Return what `measure` gives in a browser that has seen nothing yet."""
    browser: Browser = playwright.chromium.launch(**LAUNCH)
    try:
        return measure(browser.new_page())
    finally:
        browser.close()


def answers_ms(page: Page, url: str, answers: int, looks_ahead: bool) -> list[float]:
    """Return the times from press to repaint of some answers to the checks proposed, in ms.

    With `looks_ahead` the page is given the moment that a check takes at the bench.
    """
    boot_ms(page, url)
    start_demo(page)
    page.evaluate("performance.clearMeasures()")
    for number in range(answers):
        if looks_ahead:
            foreseen(page)
        else:
            settled(page)
        answer = next_answer(page, number)
        if looks_ahead:
            page.wait_for_timeout(FROM_FIELD_TO_BUTTON_MS)
        press(page, answer)
    times = page.evaluate("performance.getEntriesByType('measure').map((e) => e.duration)")
    return [float(each) for each in times]


def next_answer(page: Page, number: int) -> Locator:
    """Return the button of an answer, taking the outcomes in turn; a number is typed first."""
    reading = page.locator("#reading")
    if reading.count():
        reading.fill(page.locator("#reading-hint").inner_text().split()[1])
        return page.locator("#check .answers button[type=submit]")
    outcomes = page.locator("#check .outcomes button")
    return outcomes.nth(number % outcomes.count())


def main() -> None:
    """Print medians and ratios."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--site", type=Path, help="a site already built")
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--answers", type=int, default=15)
    parser.add_argument("--out", type=Path, help="where the page of figures finds the times")
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as name, ExitStack() as stack:
        folder = Path(name)
        site = args.site or build_site(folder / "site").folder
        (stdlib,) = site.glob("runtime-*/stdlib.zip")
        pages = {
            "bare, as shipped": write_bare_page(folder / "bare"),
            "bare, our byte code": write_bare_page(folder / "compiled", stdlib),
            "ours": site,
        }
        urls = {title: stack.enter_context(served(path)) for title, path in pages.items()}
        playwright = stack.enter_context(sync_playwright())
        rows = report_all(playwright, urls, args.runs, args.answers)
        if args.out:
            browser = f"Chromium {version_of(playwright)}"
            machine = f"{os.cpu_count()} processors, {platform.system()} {platform.machine()}"
            today = datetime.now(UTC).date().isoformat()
            keep_measurement(args.out, Measurement(today, f"{browser}, {machine}", tuple(rows)))


def version_of(playwright: Playwright) -> str:
    """Return the version of the browser, first number only."""
    browser: Browser = playwright.chromium.launch(**LAUNCH)
    try:
        return browser.version.partition(".")[0]
    finally:
        browser.close()


def report_all(
    playwright: Playwright, urls: Mapping[str, str], runs: int, answers: int
) -> list[Row]:
    """Measure paint, boot and answers, at full speed and slowed; print them and return them."""
    rows = report(playwright, "first paint", paint_ms, urls, runs)
    rows += report(playwright, "cold boot", boot_ms, urls, runs)
    for name, measure in (("first paint", paint_ms), ("cold boot", boot_ms)):
        few = max(runs // 2, 1)
        title = f"{name}, {SLOW} times slower"
        rows += report(playwright, title, partial(slow, measure), urls, few)
    for looks_ahead in (False, True):
        when = "after a moment at the bench" if looks_ahead else "at once"
        times = partial(answers_ms, url=urls["ours"], answers=answers, looks_ahead=looks_ahead)
        quick = fresh(playwright, times)
        report_answers(quick, when)
        slower = fresh(playwright, partial(slowed, measure=times))
        report_answers(slower, f"{when}, {SLOW} times slower")
        print(f"  that is {median(slower) / median(quick):.2f} times as long")
        for title, times_ms in ((when, quick), (f"{when}, {SLOW} times slower", slower)):
            rows.append(row_of(f"answer to repaint, {title}", "ours", times_ms, median(times_ms)))
    return rows


def slow(measure: Callable[[Page, str], T], page: Page, url: str) -> T:
    """Return what `measure` gives of a page on a slowed processor."""
    return slowed(page, partial(measure, url=url))


def report_answers(times_ms: list[float], when: str) -> None:
    """Print how long answers took."""
    row = " ".join(f"{each:.0f}" for each in times_ms)
    print(f"answer to repaint, {when}: median {median(times_ms):.0f} ms of {row}", flush=True)


def report(
    playwright: Playwright,
    what: str,
    measure: Callable[[Page, str], float],
    urls: Mapping[str, str],
    runs: int,
) -> list[Row]:
    """Measure the pages in turn, so that a busy machine troubles all alike; tell the ratios."""
    times: dict[str, list[float]] = {title: [] for title in urls}
    for _ in range(runs):
        for title, url in urls.items():
            times[title].append(fresh(playwright, partial(measure, url=url)))
    ours_ms = median(times["ours"])
    for title, row in times.items():
        print(
            f"{what}, {title}: median {median(row):.0f} ms, from {min(row):.0f} to "
            f"{max(row):.0f}; ours is {ours_ms / median(row):.2f} of it (n={runs})",
            flush=True,
        )
    return [row_of(what, title, row, ours_ms) for title, row in times.items()]


if __name__ == "__main__":
    main()
