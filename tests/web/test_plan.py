"""The frequency plan on the page: opened without a case, read on a phone, printed on one sheet."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from engine.diagnosis.model import SetModel
from engine.knowledge.library import read_library
from tests.web.driving import press, start_demo
from tests.web.pdf_text import pdf_text, sheets_of
from web.views.home import home
from web.views.markup import html
from web.views.plan import plan_screen
from web.views.state import Shown

SMALL = Path(__file__).parents[1] / "knowledge" / "small"
PHONE = {"width": 390, "height": 844}


@pytest.fixture(scope="module")
def planned(small_model: SetModel) -> SetModel:
    """Return the tiny set with a frequency plan."""
    family = replace(small_model.family, plan="beacon-mixing")
    plan = read_library(SMALL).plans["beacon-mixing"]
    return replace(small_model, family=family, plan=plan)


def shown(model: SetModel, has_case: bool = False, **view: str) -> str:
    """Return the screen as HTML."""
    return html(*plan_screen(model, Shown(screen="plan", **view), has_case))


def test_the_tables_are_those_of_the_engine(planned: SetModel) -> None:
    """Each channel is a row; the head of a row names the channel."""
    page = shown(planned)
    row = "<td>27.61125</td><td>92</td><td>38.30625</td><td>38.30625</td><td>27.61125</td>"
    assert f'<tr><th scope="row">2</th>{row}<td>49.00125</td></tr>' in page
    assert page.count('class="table-box"') == 4
    assert "Back to the sets" in page


def test_a_mode_is_chosen_by_a_button(planned: SetModel) -> None:
    """The mode on show is marked; one that is not known gives the first."""
    assert re.search(r'id="plan-fm" aria-pressed="true"', shown(planned, plan_mode="cw"))
    page = shown(planned, plan_mode="usb")
    assert re.search(r'id="plan-usb" aria-pressed="true"', page)
    assert "· Upper sideband</h2>" in page


def test_with_a_case_the_way_leads_back_to_the_bench(planned: SetModel) -> None:
    """The row of screens is there as well."""
    page = shown(planned, has_case=True)
    assert "Back to the bench" in page
    assert 'id="to-bench"' in page


def test_a_set_without_a_plan_says_so(small_model: SetModel) -> None:
    """Nothing is made up, and nothing leads there."""
    bare = replace(small_model, plan=None)
    assert "No frequency plan is known of this set." in shown(bare)
    assert "plan-of-" not in html(*home([replace(bare.family, plan="")], []))


def test_the_first_screen_leads_to_the_plan(planned: SetModel) -> None:
    """A set with a plan has a button for it."""
    assert 'id="plan-of-beacon"' in html(*home([planned.family], []))


def test_from_the_first_screen_without_a_case(opened: Page) -> None:
    """All forty channels are there, N and VCO of the last one too; the way leads back."""
    open_plan(opened)
    rows = opened.locator("#plan section").first.locator("tbody tr")
    expect(rows).to_have_count(40)
    assert rows.locator("th").all_inner_texts() == [str(n) for n in range(1, 41)]
    assert rows.last.locator("td").all_inner_texts()[:3] == ["27.99125", "130", "17.29625"]
    press(opened, opened.get_by_text("Back to the sets"))
    expect(opened.locator("#family-three-crystal-fm")).to_be_visible()


def test_from_the_bench_and_back(opened: Page) -> None:
    """The case stays as it is."""
    start_demo(opened)
    press(opened, opened.locator("#to-plan"))
    expect(opened.locator("#plan")).to_contain_text("Three-crystal mixing")
    press(opened, opened.get_by_text("Back to the bench"))
    expect(opened.locator("#check")).to_be_visible()


def test_tables_scroll_in_their_own_box_on_a_phone(opened: Page) -> None:
    """390 pixels wide, the page itself does not move sideways."""
    opened.set_viewport_size(PHONE)
    open_plan(opened)
    assert opened.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    scrolling = "(boxes) => boxes.filter((box) => box.scrollWidth > box.clientWidth).length"
    assert opened.locator("#plan .table-box").evaluate_all(scrolling) > 0


def test_the_plan_is_printed_on_one_sheet(opened: Page) -> None:
    """One page, whether or not there is a case whose record is printed elsewhere."""
    open_plan(opened)
    assert sheets_of(opened.pdf(format="A4", prefer_css_page_size=True)) == 1
    words = without_spaces(pdf_text(opened.pdf()))
    assert without_spaces("What a stuck line does") in words
    press(opened, opened.get_by_text("Back to the sets"))
    start_demo(opened)
    press(opened, opened.locator("#to-plan"))
    assert sheets_of(opened.pdf(format="A4", prefer_css_page_size=True)) == 1


def open_plan(page: Page) -> None:
    """Open the plan of the real set from the first screen."""
    press(page, page.locator("#plan-of-three-crystal-fm"))
    expect(page.locator("#plan")).to_be_visible()


def without_spaces(text: str) -> str:
    """Return text as it can be compared with words read out of a PDF."""
    return re.sub(r"\s+", "", text)
