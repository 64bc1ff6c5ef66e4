"""Findings are changed, withdrawn, undone; wrong entries lose nothing; cases come back."""

import json
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from engine.diagnosis.model import SetModel
from tests.web.driving import (
    case_on_screen,
    give,
    numbers,
    open_page,
    pick_check,
    press,
    settled,
    start_case,
    take_everything,
    tick,
)

SYMPTOM = "operating.no-trace-at-others"


def on_the_bench(page: Page) -> None:
    """Start a case with one symptom and a whole bench."""
    tick(page, SYMPTOM)
    take_everything(page)
    press(page, page.locator("#to-bench"))


def reading(model: SetModel) -> str:
    """Return a check that wants a number above zero."""
    return next(c.id for c in model.checks.values() if c.unit and c.span and c.span[0] >= 0)


def test_withdrawing_brings_the_old_numbers_back(opened: Page) -> None:
    """A finding given and withdrawn leaves no trace in the posteriors."""
    on_the_bench(opened)
    before = numbers(opened)["causes"]
    check = str(opened.locator("#check").get_attribute("data-check"))
    give(opened, "", fallback=True)
    assert numbers(opened)["causes"] != before
    press(opened, opened.locator(f'[data-finding="{check}"] button', has_text="Withdraw"))
    expect(opened.locator(f'[data-finding="{check}"]')).to_have_count(0)
    assert numbers(opened)["causes"] == before


def test_changing_an_answer_changes_the_numbers(opened: Page) -> None:
    """A finding is changed in its place, and the causes follow."""
    on_the_bench(opened)
    before = numbers(opened)["causes"]
    press(opened, opened.locator(f'[data-finding="{SYMPTOM}"] button', has_text="Change"))
    expect(opened.locator("#check .over")).to_have_text("Change a finding")
    press(opened, opened.locator("#answer-no"))
    assert numbers(opened)["causes"] != before


def test_undo_and_redo(opened: Page) -> None:
    """Undo takes back one input, redo brings it again."""
    on_the_bench(opened)
    steps = len(case_on_screen(opened)["log"]["inputs"])
    give(opened, "", fallback=True)
    after = numbers(opened)["causes"]
    press(opened, opened.locator("#undo"))
    expect(opened.locator("#redo")).to_be_enabled()
    assert len(case_on_screen(opened)["log"]["inputs"]) == steps
    press(opened, opened.locator("#redo"))
    expect(opened.locator("#redo")).to_be_disabled()
    assert numbers(opened)["causes"] == after


def test_cannot_check_is_no_evidence(opened: Page) -> None:
    """A check that cannot be made is listed, moves no cause, and is not proposed again."""
    on_the_bench(opened)
    before = numbers(opened)["causes"]
    check = str(opened.locator("#check").get_attribute("data-check"))
    press(opened, opened.locator("#cannot"))
    expect(opened.locator(f'[data-finding="{check}"]')).to_contain_text("could not be checked")
    assert numbers(opened)["causes"] == before
    assert opened.locator("#check").get_attribute("data-check") != check


def test_wrong_entry_says_what_is_wrong_and_loses_nothing(opened: Page, model: SetModel) -> None:
    """Text that is no number is refused with words; it stays in the field, the case as it was."""
    on_the_bench(opened)
    check = reading(model)
    pick_check(opened, check)
    kept = case_on_screen(opened)
    opened.locator("#reading").fill("three and a bit")
    opened.locator("#reading").press("Enter")
    expect(opened.locator("#reading-wrong")).to_contain_text("That cannot be used")
    expect(opened.locator("#reading-wrong")).to_contain_text(str(model.checks[check].unit))
    expect(opened.locator("#reading")).to_have_value("three and a bit")
    expect(opened.locator("#status")).to_contain_text("Nothing was lost")
    assert case_on_screen(opened) == kept


def test_number_outside_the_span_is_refused(opened: Page, model: SetModel) -> None:
    """A slip of the decimal point is met with the span."""
    on_the_bench(opened)
    check = model.checks[reading(model)]
    assert check.span is not None
    pick_check(opened, check.id)
    opened.locator("#reading").fill(str(check.span[1] * 1000))
    opened.locator("#reading").press("Enter")
    expect(opened.locator("#reading-wrong")).to_contain_text(f"{check.span[1]:g} {check.unit}")


def test_case_survives_a_reload(opened: Page, address: str) -> None:
    """After a reload the same case is on the bench, undo included."""
    on_the_bench(opened)
    give(opened, "", fallback=True)
    settled(opened)
    kept, before = case_on_screen(opened), numbers(opened)
    open_page(opened, address)
    expect(opened.locator("#check")).to_be_visible()
    assert case_on_screen(opened) == kept
    assert numbers(opened) == before
    expect(opened.locator("#undo")).to_be_enabled()


def test_older_case_is_listed_and_opens(opened: Page) -> None:
    """Starting another case keeps the first one; both are on the first screen."""
    on_the_bench(opened)
    press(opened, opened.locator("#to-home"))
    start_case(opened)
    press(opened, opened.locator("#to-home"))
    expect(opened.locator(".kept li")).to_have_count(2)
    opened.locator(".kept li").last.get_by_text("Go on").click()
    expect(opened.locator(f'[data-finding="{SYMPTOM}"]')).to_be_visible()


def test_broken_worker_is_started_afresh(opened: Page) -> None:
    """When the works are ended from outside, the case goes on where it was."""
    on_the_bench(opened)
    before = numbers(opened)
    script = f"/{opened.locator('html').get_attribute('data-app')}/page.js"
    opened.evaluate(f"import('{script}').then((m) => m.restart('a test'))")
    assert numbers(opened) == before


def test_damaged_file_leaves_the_case_alone(opened: Page, tmp_path: Path) -> None:
    """A file that cannot be read is refused in words; the case on screen stays as it was."""
    on_the_bench(opened)
    press(opened, opened.locator("#to-home"))
    kept = case_on_screen(opened)
    damaged = tmp_path / "damaged.json"
    damaged.write_text(json.dumps({**kept["log"], "inputs": [{"do": "answer"}]}), encoding="utf-8")
    opened.locator("#case-file").set_input_files(damaged)
    expect(opened.locator("#status")).to_contain_text("This file is damaged")
    assert case_on_screen(opened) == kept


def test_case_that_cannot_be_shown_replaces_none(browser: Browser, address: str) -> None:
    """When the knowledge of a set cannot be fetched, no half of a case is begun."""
    context = browser.new_context(service_workers="block")
    context.route("**/families-*/*.model", lambda route: route.abort())
    page = context.new_page()
    open_page(page, address)
    page.locator("#demo").click()
    expect(page.locator("[role=status]")).to_have_text(
        "This kind of set is not stored on this device, and there is no connection. "
        "Choose it again once there is one."
    )
    assert case_on_screen(page) is None
    context.close()
