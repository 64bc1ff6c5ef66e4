"""Three people, each from opening the page to a printed record: on a phone and on a wide screen.

The sets and what is wrong with them are invented; answers are those such a set would give.
"""

from unicodedata import normalize

import pytest
from playwright.sync_api import Page, ViewportSize, expect

from engine.diagnosis.model import SetModel
from tests.conftest import FAMILY
from tests.web.driving import PATIENCE_MS, case_on_screen, give, press, settled, start_case
from tests.web.pdf_text import pdf_text
from tests.web.simulating import FaultySet
from tests.web.test_desk_in_browser import answer_on_a_phone, write_to_the_owner

WIDTHS: tuple[ViewportSize, ...] = (
    {"width": 390, "height": 844},
    {"width": 1280, "height": 900},
)
MOST_CHECKS = 16
A_BEGINNERS_CHECKS = 6
MOST_TABS = 600
on_both_screens = pytest.mark.parametrize("window", WIDTHS, ids=("phone", "wide"))


def printed(page: Page) -> str:
    """Return what comes out of the printer: a PDF places letters, so without white space."""
    return plain(pdf_text(page.pdf(format="A4")))


def plain(words: str) -> str:
    """Return words without white space, ligatures taken apart."""
    return "".join(normalize("NFKC", words).split())


def holds(paper: str, *told: str) -> None:
    """Demand that everything told stands on the paper."""
    for words in told:
        assert plain(words) in paper, words


def findings(page: Page) -> list[str]:
    """Return what was found, as the page tells it."""
    return [words for words in page.locator("[data-finding] b").all_inner_texts() if words]


def leading(page: Page, number: int = 3) -> list[str]:
    """Return the titles of the causes that lead."""
    return page.locator(".cause-title").all_inner_texts()[:number]


def is_over(page: Page) -> bool:
    """Say whether the page tells the person to stop measuring."""
    return "measure" not in (page.locator("#verdict").get_attribute("class") or "").split()


def no_sideways(page: Page) -> None:
    """Nothing is wider than the screen."""
    width = page.viewport_size["width"] if page.viewport_size else 0
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@on_both_screens
def test_a_dead_set_at_home(opened: Page, model: SetModel, window: ViewportSize) -> None:
    """A beginner with eyes and ears only: the fuse is among the first, and nothing is unsafe."""
    broken = FaultySet(model, "supply-input.fuse-blown", "present")
    opened.set_viewport_size(window)
    start_case(opened)
    before = opened.locator("html").get_attribute("data-shown") or ""
    opened.locator('[id="row-on-off-switch.signs-of-life"] select').select_option(label="No")
    settled(opened, before)
    press(opened, opened.locator("#to-kit"))
    expect(opened.locator("#lid")).not_to_be_checked()
    press(opened, opened.locator("#to-bench"))
    for _ in range(A_BEGINNERS_CHECKS):
        if is_over(opened) or not opened.locator("#check").count():
            break
        check = str(opened.locator("#check").get_attribute("data-check"))
        assert (model.checks[check].lid, model.checks[check].needs) == ("on", ())
        give(opened, broken.says(check))
        no_sideways(opened)
    title = model.causes["supply-input.fuse-blown"].title
    assert title in leading(opened)
    press(opened, opened.locator("#to-record"))
    holds(printed(opened), "Three-crystal FM set", title, *findings(opened), "Cautions")


def reach(page: Page, selector: str) -> None:
    """Press Tab until what the selector names has the focus."""
    is_there = f"document.activeElement.matches({selector!r})"
    for _ in range(MOST_TABS):
        if page.evaluate(is_there):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"{selector} cannot be reached with Tab")


def by_key(page: Page, selector: str, key: str = "Enter") -> None:
    """Go to something by Tab, press a key, and wait until its answer is on screen, complete."""
    reach(page, selector)
    before = page.locator("html").get_attribute("data-shown") or ""
    page.keyboard.press(key)
    settled(page, before)


@on_both_screens
def test_an_odd_fault_by_keyboard(opened: Page, model: SetModel, window: ViewportSize) -> None:
    """A technician with a whole bench, who touches no mouse from the first screen to the record."""
    cause = "loop-crystal-oscillator.loop-trimmer-set"
    (way, *_) = model.causes[cause].ways
    broken = FaultySet(model, cause, way)
    opened.set_viewport_size(window)
    by_key(opened, f"#family-{FAMILY} button")
    by_key(opened, '[id="tick-operating.told-off-frequency"]', "Space")
    by_key(opened, "#to-kit")
    by_key(opened, "p.row > button:nth-child(3)")
    by_key(opened, "#lid", "Space")
    by_key(opened, "#to-bench")
    for _ in range(MOST_CHECKS):
        if is_over(opened):
            break
        check = str(opened.locator("#check").get_attribute("data-check"))
        said = broken.says(check)
        if opened.locator("#reading").count():
            reach(opened, "#reading")
            opened.keyboard.type(said)
            by_key(opened, "#reading")
        else:
            by_key(opened, f'[id="answer-{said}"]')
        expect(opened.locator(f'[data-finding="{check}"]')).to_have_count(1)
    assert leading(opened, 1) == [model.causes[cause].title]
    told = findings(opened)
    by_key(opened, "#to-record")
    holds(printed(opened), model.causes[cause].title, *told, "Cautions")


@on_both_screens
def test_a_stranger_asks_the_help_desk(opened: Page, window: ViewportSize) -> None:
    """Message, letter, the owner's phone, the answer, a few words on the shelf, the record."""
    opened.context.grant_permissions(["clipboard-read", "clipboard-write"])
    opened.set_viewport_size(window)
    link = write_to_the_owner(opened)
    no_sideways(opened)
    owner = opened.context.browser.new_context()  # type: ignore[union-attr]
    text = answer_on_a_phone(owner.new_page(), link)
    owner.close()
    opened.locator("#reply").fill(text)
    press(opened, opened.locator("#read-reply"))
    press(opened, opened.locator("#enter"))
    given = case_on_screen(opened)["log"]["inputs"][-1]
    press(opened, opened.locator("#to-bench"))
    opened.locator("#verdict").wait_for(timeout=PATIENCE_MS)
    for check, _ in given["answers"]:
        expect(opened.locator(f'[data-finding="{check}"]')).to_have_count(1)
    told, first = findings(opened), leading(opened, 1)
    press(opened, opened.locator("#to-record"))
    holds(printed(opened), "Three-crystal FM set", *told, *first)
