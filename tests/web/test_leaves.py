"""The knowledge to leaf through: without a browser, then in one."""

import json
import re
from dataclasses import replace
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from engine.diagnosis.model import SetModel
from tests.web.driving import PATIENCE_MS, press, settled, start_demo
from tests.web.pdf_text import pdf_text
from web import answering, leafing
from web.views.leaves.screen import leaf_screen
from web.views.leaves.tree_leaf import cut_sets
from web.views.markup import html
from web.views.state import Shown

PHONE = {"width": 390, "height": 844}
SYMPTOM = "check/operating.no-trace-at-others"
LEAVES = (
    "",
    "block/driver",
    "cause/driver.driver-transistor",
    "check/driver.output-base-rf",
    "signal/driver.drive",
    SYMPTOM,
)


def shown(model: SetModel, leaf: str = "", has_case: bool = False, seek: str = "") -> str:
    """Return a leaf as HTML."""
    return html(*leaf_screen(model, Shown(screen="knowledge", leaf=leaf, seek=seek), has_case))


def leads(page: str) -> set[str]:
    """Return the leaves that a page leads to."""
    views = re.findall(r'data-view="([^"]*)"', page)
    read = [json.loads(view.replace("&quot;", '"')) for view in views]
    return {view["leaf"] for view in read if "leaf" in view}


def test_the_contents_lead_to_blocks_and_symptoms(small_model: SetModel) -> None:
    """Every block, and every symptom, is one press away."""
    page = shown(small_model)
    assert "Hill-farm beacon, an invented set" in page
    assert {"block/supply", "block/sender", "block/past"} <= leads(page)
    assert {f"check/{name}" for name in small_model.symptoms} <= leads(page)


def test_a_block_says_what_feeds_it_and_what_it_makes(small_model: SetModel) -> None:
    """With who makes and takes it, its states, causes with their chance, and its checks by kind."""
    page = shown(small_model, "block/sender")
    assert ">Supply rail</button><small>from: " in page
    assert "radio frequency: right, low, absent · to: no other block" in page
    assert re.search(r"Drive preset turned down</button><small>out of adjustment · 1 in \d+", page)
    assert "measurement · What power does the meter show?" in page
    assert leads(page) >= {
        "",
        "signal/supply.rail",
        "signal/sender.output",
        "cause/sender.preset",
        "check/sender.power",
    }


def test_a_cause_says_what_it_does_and_what_to_do(small_model: SetModel) -> None:
    """By way where ways differ; cautions before the act; the check that looks straight at it."""
    page = shown(small_model, "cause/sender.output-transistor")
    assert "absent (shorted), low (open)" in page
    assert page.index('class="cautions"') < page.index("Replace it by one of the same class.")
    assert "check/sender.transistor-junctions" in leads(page)
    assert "check/sender.weak" in leads(page)
    assert "Source: bench-book" in page


def test_a_check_says_how_each_state_shows(small_model: SetModel) -> None:
    """A reading with its figures, another one with the chances of its answers."""
    power = shown(small_model, "check/sender.power")
    assert "<span>right</span><small>about 3.8 W, give or take 0." in power
    assert "<span>absent</span><small>0 to 0.1 W</small>" in power
    assert power.index('class="cautions"') < power.index("What power does the meter show?")
    junctions = shown(small_model, "check/sender.transistor-junctions")
    assert "<span>not there</span><small>Yes 95 %, No 5.0 %</small>" in junctions
    assert "cause/sender.output-transistor" in leads(junctions)


def test_a_symptom_has_its_fault_tree(small_model: SetModel) -> None:
    """Every cut set of the model stands in it, and no other."""
    page = shown(small_model, "check/supply.dark")
    assert "“No lamp lights” comes about by any one of" in page
    named = {cause for events in small_model.cut_sets["supply.dark"] for cause, _ in events}
    assert named == {leaf.removeprefix("cause/") for leaf in leads(page) if "cause/" in leaf}


def test_cut_sets_are_likeliest_first(small_model: SetModel) -> None:
    """A pair is as likely as the product of its two."""
    model = replace(
        small_model,
        cut_sets={
            "supply.dark": (
                (("sender.preset", "present"), ("sender.output-transistor", "shorted")),
                (("sender.preset", "present"),),
            )
        },
    )
    one, pair = cut_sets(model, "supply.dark")
    assert one.events == (("sender.preset", "present"),)
    assert one.chance == pytest.approx(0.01, rel=0.1)
    assert pair.chance < one.chance * 0.1
    assert "or by two of these together" in shown(model, "check/supply.dark")


def test_words_are_found_wherever_they_stand(small_model: SetModel) -> None:
    """All of them, in any text of a cause or check; nothing found is said."""
    assert leads(shown(small_model, seek="diodes BOTH")) == {
        "",
        "check/sender.transistor-junctions",
    }
    assert "Nothing here speaks of “wool”." in shown(small_model, seek="wool")


def test_a_leaf_that_is_not_there_gives_the_contents(small_model: SetModel) -> None:
    """As after a change of knowledge."""
    assert shown(small_model, "cause/sender.gone") == shown(small_model)


def test_no_link_leads_nowhere(small_model: SetModel) -> None:
    """From the contents on, every leaf that is led to is a leaf of its own."""
    contents, waiting, seen = shown(small_model), [""], set[str]()
    while waiting:
        leaf = waiting.pop()
        if leaf in seen:
            continue
        seen.add(leaf)
        page = shown(small_model, leaf)
        assert leaf == "" or page != contents, leaf
        waiting += leads(page)
    assert {f"cause/{name}" for name in small_model.causes} <= seen
    assert {f"signal/{name}" for name in small_model.signals} <= seen


def test_with_a_case_a_check_can_be_made_at_once(small_model: SetModel) -> None:
    """The way out leads to the bench, with this check in hand."""
    page = shown(small_model, "check/sender.power", has_case=True)
    assert "Make this check now" in page
    assert "Back to the bench" in page
    assert "Make this check now" not in shown(small_model, "check/sender.power")


def test_the_screen_is_answered_by_its_own_part(
    small_model: SetModel, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What the page starts with does not know this screen; the part that is fetched does."""
    monkeypatch.setattr(answering, "MODELS", {"beacon": small_model})
    monkeypatch.setattr(leafing, "MODELS", answering.MODELS)
    view = {"screen": "knowledge", "family": "beacon", "leaf": "block/sender"}
    asked: dict[str, Any] = {"id": 1, "verb": "show", "args": {"view": view, "log": None}}
    reply = json.loads(leafing.answer(json.dumps(asked)))
    assert "Makes the carrier." in reply["answer"]["html"]


def open_leaf(page: Page, words: str) -> None:
    """Press the first link of a leaf with these words."""
    press(page, page.locator("#leaf .pick", has_text=words).first)
    expect(page.locator("#title")).to_be_focused()


def open_contents(page: Page) -> None:
    """Open the knowledge of the real set from the first screen."""
    page.locator("#leaves-of-three-crystal-fm").click()
    page.locator("#leaf").wait_for(timeout=PATIENCE_MS)
    settled(page)


def test_from_the_set_down_to_a_check_and_up_again(opened: Page, model: SetModel) -> None:
    """Block, cause, check, and the trail back to the block."""
    open_contents(opened)
    open_leaf(opened, model.blocks["driver"].title)
    expect(opened.locator("#title")).to_have_text(model.blocks["driver"].title)
    open_leaf(opened, model.causes["driver.driver-transistor"].title)
    expect(opened.locator("#leaf")).to_contain_text("Dies with the output transistor")
    open_leaf(opened, model.checks["driver.driver-junctions"].title)
    expect(opened.locator("#leaf .asks")).to_contain_text("driver transistor")
    press(opened, opened.locator(".trail .pick").nth(1))
    expect(opened.locator("#title")).to_have_text(model.blocks["driver"].title)


def test_from_the_bench_to_a_cause_and_back(opened: Page) -> None:
    """The case stays as it is."""
    start_demo(opened)
    press(opened, opened.locator(".cause-title").first)
    title = opened.locator(".cause-title").first.inner_text()
    press(opened, opened.get_by_text("All that is known of it"))
    expect(opened.locator("#title")).to_have_text(title)
    press(opened, opened.locator("#leave-leaf"))
    expect(opened.locator("#check")).to_be_visible()


def test_nothing_of_it_is_fetched_before_it_is_opened(page: Page, address: str) -> None:
    """Neither the leaves nor the tools for authors cost a first visit anything."""
    fetched: list[str] = []
    page.route("**/sw.js", lambda route: route.abort())  # what it stores comes after the start
    page.on("request", lambda request: fetched.append(request.url))
    page.goto(address)
    page.locator("html[data-ready]").wait_for(timeout=PATIENCE_MS)
    lazy = re.compile(r"leafing\.zip|authors\.js|models\.js|/workshop-")
    assert [url for url in fetched if lazy.search(url)] == []
    assert any("bundle.zip" in url for url in fetched)
    open_contents(page)
    assert [url.rpartition("/")[2] for url in fetched if lazy.search(url)] == ["leafing.zip"]


@pytest.mark.parametrize("theme", ["light", "dark", "sunlight"])
def test_leaves_fit_a_phone_in_every_look(opened: Page, theme: str) -> None:
    """No leaf scrolls sideways, all there is to press is large, and it can be read."""
    opened.set_viewport_size(PHONE)
    while opened.locator("html").get_attribute("data-theme") != theme:
        opened.locator("#theme").click()
    open_contents(opened)
    for leaf in LEAVES:
        go_to(opened, leaf)
        assert opened.evaluate("document.documentElement.scrollWidth") <= PHONE["width"], leaf
        heights = opened.locator("main button:visible, main summary:visible").evaluate_all(
            "(all) => all.map((each) => each.getBoundingClientRect().height)"
        )
        assert min(heights) >= 47.5, leaf
        ink, sheet = opened.locator("#leaf").evaluate(
            "(leaf) => [getComputedStyle(leaf).color, getComputedStyle(leaf).backgroundColor]"
        )
        assert ink != sheet


def go_to(page: Page, leaf: str) -> None:
    """Open a leaf of the real set straight away, by turning a link of the page into one to it."""
    view = json.dumps({"screen": "knowledge", "leaf": leaf, "seek": ""})
    link = page.locator("#leave-leaf")
    before = page.locator("html").get_attribute("data-shown") or ""
    link.evaluate("(link, view) => { link.dataset.view = view; link.click(); }", view)
    expect(page.locator("html")).not_to_have_attribute("data-shown", before, timeout=PATIENCE_MS)
    settled(page)


def test_a_leaf_is_printed_whole(opened: Page) -> None:
    """What is folded away on screen stands on paper; the case's record does not."""
    start_demo(opened)
    press(opened, opened.locator("#to-leaves"))
    go_to(opened, SYMPTOM)
    first = opened.locator("#tree details .pick").nth(1)
    expect(first).to_be_hidden()
    words = without_spaces(first.text_content() or "")
    printed = without_spaces(pdf_text(opened.pdf()))
    assert words in printed
    assert without_spaces("Ranked causes") not in printed


def without_spaces(text: str) -> str:
    """Return the text without white space: a PDF places letters, not words."""
    return re.sub(r"\s", "", text)


def test_keyboard_alone_finds_words(opened: Page) -> None:
    """Typing and Enter search; the focus stays in the field."""
    open_contents(opened)
    opened.locator("#seek").focus()
    opened.keyboard.type("beryllia")
    opened.keyboard.press("Enter")
    expect(opened.locator("#leaf h2").first).to_contain_text("Found: ")
    expect(opened.locator("#seek")).to_be_focused()
    expect(opened.locator("#seek")).to_have_value("beryllia")
