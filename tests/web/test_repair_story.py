"""From the complaint to the printed record, with one wrong guess on the way, on two screens.

The set and what is wrong with it are invented; answers are those such a set would give.
"""

import re

from playwright.sync_api import Page, ViewportSize, expect

from engine.diagnosis.model import SetModel
from tests.web.driving import case_on_screen, give, press, settled, start_case, take_everything
from tests.web.pdf_text import pdf_text, sheets_of
from tests.web.simulating import FaultySet
from tests.web.test_whole_stories import holds, leading, no_sideways, on_both_screens, plain

CAUSE, WAY = "driver.driver-transistor", "shorted"
COMPLAINT = "operating.no-trace-at-others"
WORDS = "Nobody hears my set, not even next door. It receives as it always did."
BEFORE_THE_GUESS, MOST_CHECKS, MOST_AGAIN = 2, 16, 8


def check_on_screen(page: Page) -> str:
    """Return the check at hand."""
    return str(page.locator("#check").get_attribute("data-check"))


def is_again(page: Page) -> bool:
    """Say whether the check at hand was made before a repair that it hangs on."""
    return page.locator("#check > .over").inner_text().lower() == "check again"


def complain(page: Page) -> None:
    """Begin a case with the complaint in the owner's words and ticked."""
    start_case(page)
    page.locator("#words").fill(WORDS)
    press(page, page.locator("#understand"))
    press(page, page.locator(f'[id="tick-{COMPLAINT}"]'))


def mend(page: Page, title: str, how: str = "Replaced") -> None:
    """Open a cause and tell that it was mended."""
    press(page, page.locator(".cause-title", has_text=title).first)
    expect(page.locator("#opened-cause .mending h3")).to_have_text("I have mended it")
    no_sideways(page)
    press(page, page.get_by_role("button", name=f"{how}: {title}", exact=True))
    expect(page.locator("#mended-title")).to_be_focused()


def guess_wrong(page: Page, model: SetModel) -> str:
    """Mend the likeliest cause too early; return its title."""
    true = model.causes[CAUSE].title
    title = next(each for each in leading(page, 3) if each != true)
    mend(page, title)
    expect(page.locator("#mended-told")).to_contain_text("Nothing was checked since.")
    expect(page.locator("#mended [data-again]").first).to_be_visible()
    assert is_again(page)
    expect(page.locator("#was")).to_contain_text("Before the repair: ")
    return title


def measure_until_sure(page: Page, broken: FaultySet) -> None:
    """Make the proposed checks until the page says to act."""
    for _ in range(MOST_CHECKS):
        if page.locator("#verdict.act").count():
            return
        give(page, broken.says(check_on_screen(page)))
        no_sideways(page)
    raise AssertionError(f"not sure after {MOST_CHECKS} checks")


def name_the_set(page: Page, owner: str, title: str) -> None:
    """Write owner and title on the shelf, and come back to the bench."""
    press(page, page.locator("#to-home"))
    press(page, page.locator("#all-cases"))
    press(page, page.locator('[id^="edit-"]').first)
    page.locator("#edit-owner").fill(owner)
    page.locator("#edit-title").fill(title)
    press(page, page.get_by_role("button", name="Keep it"))
    press(page, page.get_by_role("button", name=f"Open: {title}"))


@on_both_screens
def test_a_wrong_guess_and_the_right_repair(
    opened: Page, model: SetModel, window: ViewportSize
) -> None:
    """The guess is told to have changed nothing, the second repair to have done it; one sheet."""
    broken, right = FaultySet(model, CAUSE, WAY), FaultySet(model, CAUSE, "fine")
    title = model.causes[CAUSE].title
    opened.set_viewport_size(window)
    complain(opened)
    take_everything(opened)
    press(opened, opened.locator("#to-bench"))
    for _ in range(BEFORE_THE_GUESS):
        give(opened, broken.says(check_on_screen(opened)))
    wrong = guess_wrong(opened, model)
    give(opened, broken.says(check_on_screen(opened)))
    expect(opened.locator("#mended-told")).to_contain_text("this repair changed nothing")
    measure_until_sure(opened, broken)
    assert leading(opened, 1) == [title]
    mend(opened, title)
    repeated = []
    for _ in range(MOST_AGAIN):
        check = check_on_screen(opened)
        if not is_again(opened):
            break
        repeated.append(check)
        give(opened, right.says(check))
    assert repeated
    expect(opened.locator("#mended-told")).to_contain_text("this repair put it right")
    press(opened, opened.locator(f'[id="again-{COMPLAINT}"] button'))
    give(opened, right.says(COMPLAINT))
    expect(opened.locator("#verdict .sentence")).to_contain_text(f"The last repair did it: {title}")
    expect(opened.locator("#timeline .stage.repair")).to_have_count(2)
    expect(opened.locator("#findings [data-repaired]")).to_have_count(2)
    no_sideways(opened)
    name_the_set(opened, "Upper fold", "Set 7")
    press(opened, opened.locator("#to-record"))
    no_sideways(opened)
    sheet = opened.pdf(format="A4", prefer_css_page_size=True)
    assert sheets_of(sheet) <= 2  # both sides of one sheet
    paper = plain(pdf_text(sheet))
    holds(
        paper,
        "Three-crystal FM set",
        "Owner's reference: Upper fold",
        WORDS,
        *(model.checks[each].title for each in (COMPLAINT, *repeated)),
        *("Before repair 1", "Before repair 2", "After repair 1", "After repair 2"),
        *(wrong, title, "this repair changed nothing", "this repair put it right"),
        *("Cautions", "Given back to", "knowledge", "uk-1981"),
    )
    assert paper.index(plain("Work done")) < paper.index(plain("Before and after"))


def test_undo_takes_a_repair_back(opened: Page, model: SetModel) -> None:
    """Undo and redo go over it as over any entry, and it is in the record that is kept."""
    complain(opened)
    take_everything(opened)
    press(opened, opened.locator("#to-bench"))
    title = leading(opened, 1)[0]
    mend(opened, title)
    last = case_on_screen(opened)["log"]["inputs"][-1]
    assert (last["do"], last["how"]) == ("repair", "replaced")
    before = opened.locator("html").get_attribute("data-shown") or ""
    opened.locator("#undo").click()
    settled(opened, before)
    expect(opened.locator("#mended")).to_have_count(0)
    assert leading(opened, 1) == [title]
    press(opened, opened.locator("#redo"))
    expect(opened.locator("#mended [data-repair]")).to_have_attribute(
        "data-repair", re.compile(r"\w")
    )
    opened.reload()
    settled(opened)
    expect(opened.locator("#mended [data-repair]")).to_have_count(1)


def test_a_repair_is_taken_back_after_more_was_found(opened: Page, model: SetModel) -> None:
    """What was found since stays, and undo brings the repair back."""
    right = FaultySet(model, CAUSE, "fine")
    complain(opened)
    take_everything(opened)
    press(opened, opened.locator("#to-bench"))
    title = leading(opened, 1)[0]
    mend(opened, title)
    give(opened, right.says(check_on_screen(opened)))
    found = len(case_on_screen(opened)["log"]["inputs"])
    take = opened.get_by_role("button", name=f"Take back, it was not done: {title}")
    no_sideways(opened)
    press(opened, take)
    expect(opened.locator("#mended")).to_have_count(0)
    expect(opened.locator("#title")).to_be_focused()
    assert len(case_on_screen(opened)["log"]["inputs"]) == found + 1
    assert not opened.locator("#findings [data-repaired]").count()
    press(opened, opened.locator("#undo"))
    expect(opened.locator("#mended [data-repair]")).to_have_count(1)
