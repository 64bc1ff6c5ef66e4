"""Knowledge of one's own: the checker's words on the page, and a case with what was written."""

import json
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import BrowserContext, Page, expect

from engine.diagnosis.making.compiling import QUICK, compile_family
from engine.knowledge.library import load, read_texts
from engine.knowledge.shipping import dump_texts
from tests.knowledge.test_checking import BROKEN, broken_texts
from tests.web.conftest import SMALL
from tests.web.driving import PATIENCE_MS, open_page, press, settled
from web import answering, authoring, leafing

LONG_MS = 300_000  # compiling a real set in the browser
PHONE = {"width": 390, "height": 844}
SET = "three-crystal-fm"
# What cannot be done from the page: a file is taken away, or stands where the page never puts it.
NOT_FROM_THE_PAGE = {"file-misplaced"}


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[dict[str, str]]:
    """Let the author's tools know the tiny knowledge base, as on a built site; give its texts."""
    texts = read_texts(SMALL)
    (tmp_path / "knowledge.json").write_text(dump_texts(texts), encoding="utf-8")
    monkeypatch.setattr(authoring, "HERE", tmp_path)
    monkeypatch.setattr(answering, "MODELS", {})
    monkeypatch.setattr(authoring, "MODELS", answering.MODELS)
    authoring.shipped.cache_clear()
    yield texts
    authoring.shipped.cache_clear()


def ask(verb: str, files: dict[str, str], **args: Any) -> Any:
    """Return the reply of the author's tools to one request about some files."""
    own = {"files": [{"name": name, "text": text} for name, text in files.items()], "at": 0}
    request = {"id": 1, "verb": verb, "args": {"own": own, **args}}
    return json.loads(authoring.answer(json.dumps(request), lambda *_: None))


def told(reply: Any) -> list[str]:
    """Return the problems on the page, each as the terminal prints it."""
    parts = reply["answer"]["parts"]["own-told"].split('data-problem="')[1:]
    return [unescape(part.partition('">')[0]) for part in parts]


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_every_mistake_is_told_as_by_the_checker(path: Path, desk: dict[str, str]) -> None:
    """Word for word, with file and line, all at once."""
    case = yaml.safe_load(path.read_text(encoding="utf-8"))
    if case.get("remove") or path.stem in NOT_FROM_THE_PAGE:
        pytest.skip("not from the page")
    texts = broken_texts(desk, case)
    own = {file: text for file, text in texts.items() if desk.get(file) != text}
    assert "\n".join([*told(ask("own-check", own)), ""]) == case["message"]


@pytest.mark.usefixtures("desk")
def test_two_files_for_one_place_are_a_mistake() -> None:
    """Neither hides the other."""
    sender = (SMALL / "blocks" / "sender.yaml").read_text(encoding="utf-8")
    reply = ask("own-check", {"sender.yaml": sender, "blocks/sender.yaml": sender})
    assert told(reply) == [
        "blocks/sender.yaml:1: (whole file): found two files of this name, expected one\n"
        "  Take one of them away, or give it another name."
    ]


def test_right_files_lead_to_the_sets_they_are_part_of(desk: dict[str, str]) -> None:
    """A block of a set offers that set; one that nothing lists offers it among the others."""
    reply = ask("own-check", {"sender.yaml": desk["blocks/sender.yaml"]})
    shown = reply["answer"]["parts"]["own-told"]
    assert shown.index("own-diagnose-beacon") < len(shown)
    assert "own-others" not in shown
    assert reply["answer"]["places"] == ["blocks/sender.yaml"]
    alone = desk["blocks/past.yaml"].replace("title: ", "title: Another ", 1)
    reply = ask("own-check", {"another.yaml": alone})
    assert "No set has a part of yours yet." in reply["answer"]["parts"]["own-told"]


def test_what_was_written_is_what_is_reasoned_with(desk: dict[str, str]) -> None:
    """The set compiled on the page is the one compiled natively, but for its name and title."""
    sender = desk["blocks/sender.yaml"].replace("prior: 0.01", "prior: 0.2")
    reply = ask("own-compile", {"sender.yaml": sender}, family="beacon")
    assert reply == {"answer": {"family": "own/beacon"}}
    made = answering.MODELS["own/beacon"]
    native = compile_family(load({**desk, "blocks/sender.yaml": sender}), "beacon", QUICK)
    assert made.family.title == f"{native.family.title} (your own knowledge)"
    assert made.version == native.version
    assert made.causes == native.causes
    assert made.causes["sender.preset"].prior > 0.19
    answering.learn("own/beacon", authoring.dumped("own/beacon"))
    assert answering.MODELS["own/beacon"].causes == made.causes


def test_a_case_says_whose_knowledge_it_rests_on(desk: dict[str, str]) -> None:
    """On every screen of the case, and in its record."""
    ask("own-compile", {"sender.yaml": desk["blocks/sender.yaml"]}, family="beacon")
    log = {"format": 1, "family": "own/beacon", "inputs": []}
    for screen in ("symptoms", "kit", "bench", "record"):
        asked = {"id": 1, "verb": "show", "args": {"log": log, "view": {"screen": screen}}}
        shown = json.loads(answering.answer(json.dumps(asked)))["answer"]["html"]
        assert "Worked out with your own knowledge, not saved on any server." in shown


@pytest.mark.usefixtures("desk")
def test_wrong_files_are_not_compiled() -> None:
    """The page is told to check again; nothing is replaced."""
    reply = ask("own-compile", {"sender.yaml": "title: ["}, family="beacon")
    words = "There is something to put right first: check again."
    assert reply == {"problem": {"kind": "refused", "words": words}}
    assert answering.MODELS == {}


def test_what_was_typed_is_echoed_as_it_is() -> None:
    """Line breaks at both ends and brackets are kept; the first break is eaten by the browser."""
    own = {"files": [{"name": "a.yaml", "text": "\n<b> & \n"}], "at": 7, "isKept": False}
    asked = {"id": 1, "verb": "show", "args": {"own": own, "log": None, "view": {"screen": "own"}}}
    shown = json.loads(leafing.answer(json.dumps(asked)))["answer"]["html"]
    assert ">\n\n&lt;b&gt; &amp; \n</textarea>" in shown
    assert "This browser keeps nothing for the page" in shown


def open_own(page: Page) -> None:
    """Open the screen for authors from the first one."""
    page.locator("#to-own").click()
    page.locator("#own-new").wait_for(timeout=PATIENCE_MS)
    settled(page)


def take(page: Page, file: str) -> None:
    """Take a copy of a shipped file."""
    page.locator("#own-list").click()
    page.locator("#own-shipped").wait_for(timeout=PATIENCE_MS)
    page.locator("#own-shipped").select_option(file)
    press(page, page.locator("#own-take"))


def test_files_are_opened_checked_mended_and_kept(
    first_visit: Page, address: str, tmp_path: Path
) -> None:
    """A slip is told with its line, the line is found, what was typed survives a reload."""
    shipped = read_texts(Path(__file__).parents[2] / "kb")["blocks/driver.yaml"]
    wrong = shipped.replace("kind: adjustment", "kind: adjustmnet")
    line = wrong[: wrong.index("adjustmnet")].count("\n") + 1
    (tmp_path / "driver.yaml").write_text(wrong, encoding="utf-8")
    open_own(first_visit)
    first_visit.locator("#own-picker").set_input_files(tmp_path / "driver.yaml")
    place = first_visit.locator(".problem .pick")
    expect(place).to_have_text(f"blocks/driver.yaml:{line}", timeout=PATIENCE_MS)
    expect(first_visit.locator(".problem")).to_contain_text("Did you mean 'adjustment'?")
    place.click()
    expect(first_visit.locator("#own-text")).to_be_focused()
    selected = "(area) => area.value.slice(area.selectionStart, area.selectionEnd)"
    assert first_visit.locator("#own-text").evaluate(selected) == "    kind: adjustmnet"
    first_visit.keyboard.type("    kind: adjustment")
    expect(first_visit.locator("#own-told")).to_contain_text("All right.", timeout=PATIENCE_MS)
    open_page(first_visit, address)
    open_own(first_visit)
    expect(first_visit.locator("#own-text")).to_have_value(shipped)


def test_a_file_that_is_no_text_is_refused(first_visit: Page, tmp_path: Path) -> None:
    """The others of the same choice are taken."""
    (tmp_path / "bad.yaml").write_bytes(b"title: \xff\xfe")
    (tmp_path / "good.yaml").write_text("title: [", encoding="utf-8")
    open_own(first_visit)
    first_visit.locator("#own-picker").set_input_files(
        [tmp_path / "bad.yaml", tmp_path / "good.yaml"]
    )
    expect(first_visit.locator("#own-text")).to_have_value("title: [", timeout=PATIENCE_MS)
    expect(first_visit.locator("#own-file-0")).to_have_text("good.yaml")
    expect(first_visit.locator("#own-file-1")).to_have_count(0)
    expect(first_visit.locator(".problem").first).to_be_visible(timeout=PATIENCE_MS)


def test_an_empty_file_is_begun_named_and_taken_away(first_visit: Page) -> None:
    """From nothing, by keyboard; taking it away asks first."""
    first_visit.on("dialog", lambda dialog: dialog.accept())
    open_own(first_visit)
    press(first_visit, first_visit.locator("#own-new"))
    expect(first_visit.locator("#own-name")).to_be_focused()
    first_visit.keyboard.type("hill-stage.yaml")
    first_visit.locator("#own-text").fill("title: Hill stage\n")
    expect(first_visit.locator(".problem").first).to_contain_text(
        "blocks/hill-stage.yaml", timeout=PATIENCE_MS
    )
    press(first_visit, first_visit.locator("#own-drop"))
    expect(first_visit.locator("#own-text")).to_have_count(0)
    expect(first_visit.locator("#own-told")).to_have_text("Nothing to check yet.")


@pytest.mark.parametrize("width", [390, 1280])
def test_the_screen_for_authors_fits(first_visit: Page, width: int) -> None:
    """Neither scrolls sideways; what there is to press is large."""
    first_visit.set_viewport_size({"width": width, "height": 844})
    open_own(first_visit)
    take(first_visit, "blocks/driver.yaml")
    expect(first_visit.locator("#own-told")).to_contain_text("All right.", timeout=PATIENCE_MS)
    assert first_visit.evaluate("document.documentElement.scrollWidth") <= width
    heights = first_visit.locator("main button:visible, main select:visible").evaluate_all(
        "(all) => all.map((each) => each.getBoundingClientRect().height)"
    )
    assert min(heights) >= 47.5
    expect(first_visit.locator("#own-offline")).to_contain_text(
        "work without a connection", timeout=PATIENCE_MS
    )


def test_a_fault_is_looked_for_with_own_knowledge(
    first_visit: Page, context: BrowserContext, address: str
) -> None:
    """Compiled in the browser, marked as one's own, there again after a reload, also offline."""
    open_own(first_visit)
    take(first_visit, "blocks/driver.yaml")
    text = first_visit.locator("#own-text").input_value()
    title = "Driver transistor gone, say the shepherds"
    first_visit.locator("#own-text").fill(text.replace("Driver transistor failed", title))
    press_when_right(first_visit)
    first_visit.locator("#filter").wait_for(timeout=LONG_MS)
    settled(first_visit)
    expect(first_visit.locator(".private")).to_contain_text("not saved on any server")
    press(first_visit, first_visit.locator('[id="tick-operating.no-trace-at-others"]'))
    press(first_visit, first_visit.locator("#to-bench"))
    press(first_visit, first_visit.locator("#block-driver"))
    expect(first_visit.locator("#opened-block")).to_contain_text(title)
    expect(first_visit.locator("#offline-words")).to_contain_text(
        "Ready offline", timeout=PATIENCE_MS
    )
    context.set_offline(True)
    open_page(first_visit, address)
    expect(first_visit.locator(".private")).to_contain_text("your own knowledge")
    press(first_visit, first_visit.locator("#to-home"))
    expect(first_visit.locator(".kept")).to_contain_text("(your own knowledge)")
    open_own(first_visit)
    expect(first_visit.locator("#own-told")).to_contain_text("All right.", timeout=PATIENCE_MS)


def press_when_right(page: Page) -> None:
    """Wait for the checker and begin a case of the real set."""
    page.locator("#own-check").click()
    button = page.locator(f"#own-diagnose-{SET}")
    button.wait_for(timeout=PATIENCE_MS)
    expect(page.locator("#own-told")).not_to_have_attribute("aria-busy", "true")
    button.click()


def test_without_the_compiled_set_a_case_says_what_is_missing(
    first_visit: Page, address: str, tmp_path: Path
) -> None:
    """A case file that rests on knowledge of another browser is refused in words."""
    case = {"format": 1, "family": "own/gone", "inputs": []}
    (tmp_path / "case.json").write_text(json.dumps(case), encoding="utf-8")
    first_visit.locator("#case-file").set_input_files(tmp_path / "case.json")
    expect(first_visit.locator("#status")).to_contain_text("This case rests on your own knowledge")
