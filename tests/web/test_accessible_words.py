"""Screens where something is typed, sent, supposed, drawn or walked through, by axe-core."""

import re
from collections.abc import Callable

from playwright.sync_api import Page, expect

from tests.conftest import FAMILY
from tests.web.driving import PATIENCE_MS, press, settled
from tests.web.test_accessible import complaints_of
from web.build.packages import AXE, fetch
from web.build.parts import ROOT


def test_no_screen_that_takes_words_breaks_a_rule(opened: Page) -> None:
    """The same holds where something is typed, sent, supposed, drawn, or walked through."""
    opened.evaluate((fetch(AXE, ROOT / ".cache") / "axe.min.js").read_text(encoding="utf-8"))
    broken = []
    for name, go in WITH_WORDS.items():
        go(opened)
        broken += [f"{name}, {each}" for each in complaints_of(opened, ())]
    assert broken == []


def walk_on(page: Page, step: int) -> None:
    """Go one step on in the walk, or begin it."""
    page.locator("#walk-next" if step > 1 else "#walk").click()
    expect(page.locator(".guide .over")).to_contain_text(f"step {step} of")


def told_in_own_words(page: Page) -> None:
    """Leave the walk, start a case, and let a message be understood."""
    press(page, page.locator("#walk-leave"))
    press(page, page.locator(f"#family-{FAMILY} button.main"))
    page.locator("#words").fill(MESSAGE)
    press(page, page.locator("#understand"))
    press(page, page.locator(f'[id="heard-{MEANT}"]'))


def answer_read(page: Page) -> None:
    """Paste an answer of which one part is understood and one is not."""
    press(page, page.locator("#copy-letter"))
    page.locator("#reply").fill("1: no\n2: somewhat\n9: yes\nIt also hums.")
    press(page, page.locator("#read-reply"))


def link_of_the_letter(page: Page) -> None:
    """Open the link of the letter, as its reader does."""
    (link,) = re.findall(r"#dj\S+", page.locator("#letter").input_value())
    page.evaluate("(link) => { location.hash = link; }", link)
    page.locator("#fill").wait_for(timeout=PATIENCE_MS)
    settled(page)


def sheet_filled(page: Page) -> None:
    """Answer the first question of the owner's sheet."""
    page.locator("fieldset").first.locator("label").nth(1).click()
    press(page, page.locator("#fill"))


def case_by_link(page: Page) -> None:
    """Leave the sheet, and open the link to a whole case."""
    page.evaluate("() => { location.hash = ''; }")
    press(page, page.locator("#to-shelf"))
    press(page, page.locator('[data-do="open"]').first)
    press(page, page.locator("#to-symptoms"))
    press(page, page.locator("#symptoms-to-desk"))
    page.locator("#hand-on summary").click()
    link = page.locator("#case-link").input_value()
    page.evaluate("(link) => { location.hash = link; }", link[link.index("#") :])
    page.locator("#open-linked").wait_for(timeout=PATIENCE_MS)
    settled(page)


def several_at_once(page: Page) -> None:
    """Type lines of which one fits, one fits the same check, and one fits nothing."""
    press(page, page.locator("#leave-linked"))
    press(page, page.locator("#demo"))
    page.locator("#several summary").click()
    page.locator("#lines").fill("tx power 3.6 W\npower 3.5 W\nhello there")
    press(page, page.locator("#several button"))


def something_supposed(page: Page) -> None:
    """Suppose an answer to a check that reads a number."""
    press(page, page.get_by_role("button", name="Back"))
    press(page, page.locator("#more-checks"))
    press(page, page.locator('[id="further-aerial-switching.power-at-socket"] button'))
    page.locator("#supposed").fill("3.6")
    press(page, page.locator(".suppose button"))


def fault_tree(page: Page) -> None:
    """Open the fault tree of a symptom."""
    press(page, page.locator("#not-so"))
    press(page, page.locator("#to-leaves"))
    page.locator('details[id^="leaves-"]', has_text=NOBODY_HEARS).locator("summary").click()
    press(page, page.get_by_role("button", name=NOBODY_HEARS))
    expect(page.locator("#tree-picture svg")).to_be_visible()


def bin_of_the_shelf(page: Page) -> None:
    """Delete a case, and look at what was deleted."""
    press(page, page.locator("#to-shelf"))
    press(page, page.locator('[data-do="delete"]').last)
    page.locator("#bin summary").click()


def file_refused(page: Page) -> None:
    """Open a file that holds no case, on the shelf."""
    file = {"name": "cases.json", "mimeType": "application/json", "buffer": b'{"dryjoint":'}
    page.locator("#shelf-picker").set_input_files([file])  # type: ignore[list-item]
    expect(page.locator("#told")).to_contain_text("found")


MESSAGE = "It receives fine but nobody hears me, the needle stays still. I have a multimeter."
MEANT = "operating.no-trace-at-others"
NOBODY_HEARS = "No trace of the transmission at others"
# A screen, and how to come there from the one above.
WITH_WORDS: dict[str, Callable[[Page], None]] = {
    "walk, first step": lambda page: walk_on(page, 1),
    "walk, second step": lambda page: walk_on(page, 2),
    "walk, third step": lambda page: walk_on(page, 3),
    "a message understood": told_in_own_words,
    "letter": lambda page: press(page, page.locator("#symptoms-to-desk")),
    "letter with its code": lambda page: press(page, page.locator("#show-qr")),
    "answer read": answer_read,
    "owner's sheet": link_of_the_letter,
    "owner's sheet with nothing said": lambda page: press(page, page.locator("#fill")),
    "owner's sheet filled in": sheet_filled,
    "case by link": case_by_link,
    "several readings": several_at_once,
    "something supposed": something_supposed,
    "fault tree": fault_tree,
    "fault tree, unfolded": lambda page: press(page, page.locator(".fault-tree .cut").first),
    "shelf with a deleted case": bin_of_the_shelf,
    "shelf with a file refused": file_refused,
}
