"""Frequencies in a real browser: typed as the counter shows them, joined, and put on record."""

import re

from playwright.sync_api import Page, expect

from engine.diagnosis.advising.advice import step
from engine.diagnosis.model import SetModel
from tests.web.driving import (
    case_on_screen,
    numbers,
    press,
    start_case,
    take_everything,
)
from tests.web.test_finding import natively


def enter(page: Page, base: str, said: str) -> None:
    """Choose a check that reads a frequency, unless it is at hand, and enter a reading."""
    if not str(page.locator("#check").get_attribute("data-check")).startswith(base):
        press(page, page.locator("#more-checks"))
        press(page, page.locator(f'[id^="further-{base}@"] button').first)
    page.locator("#reading").fill(said)
    press(page, page.locator("#check .answers button[type=submit]"))


def test_two_readings_name_the_loop_crystal(opened: Page, model: SetModel) -> None:
    """Off by the same in transmit and at the VCO; page and native numbers are the same."""
    start_case(opened)
    take_everything(opened)
    press(opened, opened.locator("#to-bench"))
    enter(opened, "operating.transmit-error", "+0.8 kHz on channel 20")
    press(opened, opened.locator("#order-gain"))
    expect(opened.locator("#check")).to_have_attribute("data-check", re.compile("^vco.vco-error@"))
    right = model.checks["vco.vco-error@7"].nominal_mhz
    assert right == 16.96625
    enter(opened, "vco.vco-error", "16.96705 on channel 7")
    rows = opened.locator("#frequencies [data-oscillator]")
    expect(rows).to_have_count(3)
    expect(opened.locator("#frequencies")).to_contain_text("lower it by about 7")
    expect(opened.locator('[data-finding="vco.vco-error@7"]')).to_have_count(1)
    native = step(model, natively(model, case_on_screen(opened)["log"]["inputs"]))
    found = numbers(opened)["causes"]
    assert all(abs(found[each.id] - each.probability) < 1e-9 for each in native.causes)
    press(opened, opened.locator("#to-record"))
    expect(opened.locator("#paper")).to_contain_text("What the frequencies say")
    expect(opened.locator("#paper")).to_contain_text("15.996250")
