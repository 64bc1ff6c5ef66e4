"""The bench by keyboard alone, and the kit it keeps, in a real browser."""

from playwright.sync_api import Page, expect

from tests.web.driving import case_on_screen, press, settled, take_everything, tick

SYMPTOM = "operating.no-trace-at-others"


def by_key(page: Page, key: str) -> None:
    """Press a key that enters something and wait until its answer is there."""
    before = page.locator("html").get_attribute("data-shown") or ""
    page.keyboard.press(key)
    expect(page.locator("html")).not_to_have_attribute("data-shown", before)
    settled(page)


def inputs(page: Page) -> list[dict[str, str]]:
    """Return the inputs of the case on screen."""
    return list(case_on_screen(page)["log"]["inputs"])


def test_keys_answer_and_never_while_typing(opened: Page) -> None:
    """N passes a check; in the box for readings digits and N are letters; supposing enters none."""
    tick(opened, SYMPTOM)
    take_everything(opened)
    press(opened, opened.locator("#to-bench"))
    check = opened.locator("#check").get_attribute("data-check")
    by_key(opened, "n")
    assert (inputs(opened)[-1]["check"], inputs(opened)[-1]["said"]) == (check, "cannot-check")
    count = len(inputs(opened))
    opened.keyboard.press("Escape")
    opened.keyboard.press("/")
    opened.keyboard.type("main rail 13.1 V\nn 1 2")
    assert len(inputs(opened)) == count
    press(opened, opened.get_by_text("Match them to checks"))
    press(opened, opened.locator("#enter-several"))
    assert [each["check"] for each in inputs(opened)[count:]] == ["on-off-switch.main-rail"]
    expect(opened.locator("#lines")).to_have_value("n 1 2")
    press(opened, opened.locator("#effects button").first)
    expect(opened.locator("#only-supposed")).to_contain_text("Nothing of this is entered.")
    press(opened, opened.locator("#not-so"))
    assert len(inputs(opened)) == count + 1


def test_only_a_kit_that_was_chosen_here_is_kept(opened: Page) -> None:
    """The kit of the worked case is not taken for one's own; a box that is ticked makes it so."""
    kept = "JSON.parse(localStorage.getItem('dryjoint-kit'))"
    press(opened, opened.locator("#demo"))
    assert opened.evaluate(kept) is None
    press(opened, opened.locator("#to-kit"))
    assert opened.evaluate(kept) is None
    press(opened, opened.get_by_role("button", name="A multimeter", exact=True))
    assert opened.evaluate(kept)["instruments"] == ["multimeter"]
