"""A person finds a fault in the real knowledge, in a real browser."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case, Kit, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from tests.web.driving import case_on_screen, give, numbers, press, take_everything, tick
from tests.web.simulating import FaultySet

CAUSE, WAY = "driver.driver-transistor", "open"
SYMPTOM = "operating.no-trace-at-others"
MOST_CHECKS = 25


def natively(model: SetModel, inputs: list[Any]) -> Case:
    """Return the case that the inputs of the page describe."""
    case = Case(model.family.id, Kit(frozenset(), "on"))
    for given in inputs:
        if given["do"] == "answer":
            case = add_finding(case, read_answer(model, given["check"], given["said"]))
    return Case(case.family, full_kit(model), case.findings)


def leading(page: Page) -> str:
    """Return the cause on top of the list."""
    return str(page.locator("[data-cause]").first.get_attribute("data-cause"))


def test_from_symptom_to_leading_cause(opened: Page, model: SetModel) -> None:
    """Answering the proposed checks truthfully brings the true cause to the top."""
    faulty = FaultySet(model, CAUSE, WAY)
    tick(opened, SYMPTOM)
    take_everything(opened)
    press(opened, opened.locator("#to-bench"))
    for _ in range(MOST_CHECKS):
        if opened.locator("#verdict.act").count():
            break
        check = str(opened.locator("#check").get_attribute("data-check"))
        give(opened, faulty.says(check))
    assert leading(opened) == CAUSE
    expect(opened.locator("#verdict")).to_contain_text(model.causes[CAUSE].title)


def test_page_and_native_numbers_are_the_same(opened: Page, model: SetModel) -> None:
    """Every posterior and every gain in the page equals the native one."""
    tick(opened, SYMPTOM)
    take_everything(opened)
    press(opened, opened.locator("#to-bench"))
    faulty = FaultySet(model, CAUSE, WAY)
    for _ in range(3):
        give(opened, faulty.says(str(opened.locator("#check").get_attribute("data-check"))))
    native = step(model, natively(model, case_on_screen(opened)["log"]["inputs"]))
    found = numbers(opened)
    # 1e-9: both add the same floats in the same order; only the C library's log may differ.
    assert found["causes"] == pytest.approx({c.id: c.probability for c in native.causes}, abs=1e-9)
    assert found["gains_bits"] == pytest.approx(
        {c.id: c.gain_bits for c in native.checks}, abs=1e-9
    )
    assert len(found["causes"]) == len(model.causes)


def test_list_shows_the_numbers_of_the_engine(opened: Page, model: SetModel) -> None:
    """The figures in the list are those of the step, highest first."""
    tick(opened, SYMPTOM)
    press(opened, opened.locator("#to-bench"))
    rows = opened.locator("[data-cause]").all()
    shown = {
        str(row.get_attribute("data-cause")): float(str(row.get_attribute("data-probability")))
        for row in rows
    }
    exact = numbers(opened)["causes"]
    assert shown == {cause: exact[cause] for cause in shown}
    assert list(shown.values()) == sorted(shown.values(), reverse=True)


def test_effects_and_reasons_follow(opened: Page) -> None:
    """After the repaint come the effect of each answer, the reasons of a cause, the drawing."""
    tick(opened, SYMPTOM)
    press(opened, opened.locator("#to-bench"))
    press(opened, opened.locator(".cause-title").first)
    expect(opened.locator("#why tr.total")).to_have_count(1)
    expect(opened.locator("#effects li").first).to_be_visible()
    expect(opened.locator("#tells")).to_contain_text("Helps to tell")
    assert (
        opened.locator("#map svg .block").count() == opened.locator("#map .block-list li").count()
    )


def test_block_opens_from_the_drawing(opened: Page) -> None:
    """Pressing a block in the drawing lists the causes in it."""
    tick(opened, SYMPTOM)
    press(opened, opened.locator("#to-bench"))
    press(opened, opened.locator("#block-driver"))
    expect(opened.locator("#opened-block [data-block-cause^='driver.']").first).to_be_visible()


def test_worked_case_says_that_it_is_invented(opened: Page) -> None:
    """The demo loads by one button, and its record says that it is invented."""
    press(opened, opened.locator("#demo"))
    press(opened, opened.locator("#to-record"))
    expect(opened.locator("#paper")).to_contain_text(re.compile("invented", re.IGNORECASE))
    expect(opened.locator("#paper .found tr").first).to_be_visible()
