"""The shelf of cases in Chromium: records, the list, files, two windows."""

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Locator, Page, expect

from tests.web.driving import (
    PATIENCE_MS,
    case_on_screen,
    numbers,
    open_page,
    page_script,
    press,
    settled,
    start_case,
    start_demo,
)

NEWER = (
    "A newer version of this page wrote this case. It is kept untouched: update the page, then "
    "open it."
)
RUN = """async ([script, work, argument]) => {
  const cases = await import(script.replace("page.js", "cases.js"));
  return work === "kept" ? cases.kept() : cases[work](argument);
}"""
STORE = """(record) => new Promise((resolve) => {
  const request = indexedDB.open("dryjoint", 1);
  request.onupgradeneeded = () => request.result.createObjectStore("cases", {keyPath: "id"});
  request.onsuccess = () => {
    const transaction = request.result.transaction("cases", "readwrite");
    transaction.objectStore("cases").put(record);
    transaction.oncomplete = () => { request.result.close(); resolve(); };
  };
})"""


def kept(page: Page) -> list[dict[str, Any]]:
    """Return the records this browser keeps."""
    return list(page.evaluate(RUN, [page_script(page), "kept", None]))


def to_shelf(page: Page) -> None:
    """Open the shelf and wait until every case is worked out."""
    press(page, page.locator("#to-shelf"))
    expect(page.get_by_text("Being worked out.")).to_have_count(0, timeout=PATIENCE_MS)
    settled(page)


def row(page: Page, number: int = 0) -> Locator:
    """Return a case on the shelf, the last one used first."""
    return page.locator(".case").nth(number)


def write(page: Page, case: Locator, **fields: str) -> None:
    """Change what is written about a case."""
    press(page, case.get_by_role("button", name="Change"))
    for name, text in fields.items():
        field = page.locator(f"#edit-{name}")
        if name == "status":
            field.select_option(text)
        else:
            field.fill(text)
    press(page, page.get_by_role("button", name="Keep it"))


def test_records_of_other_versions_are_kept_whole(first_visit: Page) -> None:
    """One of the first format opens with no loss; one of a newer is refused and stays as it is."""
    log = {
        "format": 1,
        "family": "three-crystal-fm",
        "inputs": [
            {"do": "note", "text": "Blue set from the lambing shed", "at": "2026-03-01T08:00:00"}
        ],
    }
    undone = [{"do": "lid", "lid": "off"}]
    old = {"id": "old", "log": log, "undone": undone, "changed": "2026-03-02T09:00:00", "used": 2}
    newer = {
        "id": "newer",
        "format": 99,
        "log": {"format": 9, "words": []},
        "changed": "",
        "used": 1,
    }
    for record in (old, newer):
        first_visit.evaluate(STORE, record)
    to_shelf(first_visit)
    expect(first_visit.locator("#case-newer")).to_contain_text(NEWER)
    expect(first_visit.locator("#case-newer button")).to_have_count(0)
    expect(first_visit.locator("#case-old")).to_contain_text("opened 2026-03-01 08:00")
    press(first_visit, first_visit.locator("#case-old").get_by_role("button", name="Open"))
    press(first_visit, first_visit.locator("#redo"))
    press(first_visit, first_visit.locator("#to-record"))
    expect(first_visit.locator("#note")).to_have_value("Blue set from the lambing shed")
    first, second = sorted(kept(first_visit), key=lambda record: str(record["id"]))
    assert first == newer
    assert second["log"]["inputs"] == [*log["inputs"], undone[0]]
    assert (second["format"], second["undone"], second["status"]) == (2, [], "open")


def test_a_case_on_the_shelf_is_written_found_deleted_and_closed(first_visit: Page) -> None:
    """Title, owner, status and notes outlast a reload and further answers, and find the case."""
    start_demo(first_visit)
    to_shelf(first_visit)
    fields = {"title": "Blue set", "owner": "Hilltop fold", "next": "Ask for the fuse"}
    write(first_visit, row(first_visit), **fields, status="waiting", notes="Top shelf")
    for words in (*fields.values(), "Top shelf", "Waiting for the owner", "Likeliest so far: "):
        expect(row(first_visit)).to_contain_text(words)
    press(first_visit, row(first_visit).get_by_role("button", name="Open"))
    press(first_visit, first_visit.locator("#cannot"))
    first_visit.reload()
    settled(first_visit)
    record = case_on_screen(first_visit)
    assert {name: record[name] for name in fields} == fields
    assert (record["status"], record["notes"]) == ("waiting", "Top shelf")
    press(first_visit, first_visit.locator("#to-home"))
    start_case(first_visit)
    to_shelf(first_visit)
    expect(first_visit.locator(".case:visible")).to_have_count(2)
    first_visit.locator("#shelf-filter").fill("hilltop FUSE")
    expect(first_visit.locator(".case:visible")).to_have_count(1)
    first_visit.locator("#shelf-filter").fill("nowhere")
    expect(first_visit.locator("[data-nothing]")).to_be_visible()
    first_visit.locator("#shelf-filter").fill("")
    press(first_visit, first_visit.locator("#status-waiting"))
    expect(first_visit.locator(".case")).to_have_count(1)
    press(first_visit, row(first_visit).get_by_role("button", name="Delete"))
    expect(first_visit.locator(".case")).to_have_count(0)
    first_visit.locator("#bin summary").click()
    press(first_visit, first_visit.locator("#bin").get_by_role("button", name="Bring back"))
    press(first_visit, row(first_visit).get_by_role("button", name="Close it"))
    ticked = first_visit.locator(".tick input").first
    title = ticked.get_attribute("value")
    ticked.check()
    press(first_visit, first_visit.get_by_role("button", name="Close the case"))
    press(first_visit, first_visit.locator("#status-closed"))
    expect(row(first_visit)).to_contain_text(f"Confirmed{title}")


def second_window(context: BrowserContext, address: str) -> Page:
    """Return another window of the same browser, on the case used last."""
    other = context.new_page()
    open_page(other, address)
    settled(other)
    return other


def test_two_windows_overwrite_nothing(
    first_visit: Page, context: BrowserContext, address: str
) -> None:
    """Both are told; who comes second takes over, with Redo for what was lost, or keeps a copy."""
    start_demo(first_visit)
    other = second_window(context, address)
    notice, words = first_visit.locator("#windows"), first_visit.locator("#windows-words")
    expect(other.locator("#windows-words")).to_contain_text("open in another window as well")
    expect(words).to_contain_text("open in another window as well")
    press(other, other.locator("#cannot"))
    expect(words).to_contain_text("Another window went on with this case.")
    theirs = case_on_screen(other)
    press(first_visit, first_visit.locator("#to-kit"))
    press(first_visit, first_visit.get_by_role("button", name="Eyes and ears only"))
    expect(words).to_contain_text("your last entry here was not kept. Nothing was overwritten.")
    mine = case_on_screen(first_visit)["log"]["inputs"][-1]
    assert [each["log"] for each in kept(first_visit)] == [theirs["log"]]
    press(first_visit, first_visit.get_by_role("button", name="Take the case over here"))
    expect(notice).to_be_hidden()
    expect(other.locator("#windows-words")).to_have_text("Another window took this case over.")
    assert case_on_screen(first_visit)["log"] == theirs["log"]
    press(first_visit, first_visit.locator("#redo"))
    whole = [*theirs["log"]["inputs"], mine]
    assert [each["log"]["inputs"] for each in kept(first_visit)] == [whole]
    press(other, other.locator("#cannot"))
    expect(other.locator("#windows-words")).to_contain_text("Nothing was overwritten.")
    press(other, other.get_by_role("button", name="Keep what is here as a second case"))
    expect(other.locator("#windows")).to_be_hidden()
    copy, first = kept(first_visit)
    assert first["log"]["inputs"] == whole
    assert copy["log"] == case_on_screen(other)["log"]
    assert copy["title"] == "Case (second window)"


def test_undo_and_redo_go_on_after_a_reload(first_visit: Page) -> None:
    """What was undone before the page was loaded anew can be brought back after, in its order."""
    start_demo(first_visit)
    inputs = case_on_screen(first_visit)["log"]["inputs"]
    press(first_visit, first_visit.locator("#undo"))
    press(first_visit, first_visit.locator("#undo"))
    first_visit.reload()
    settled(first_visit)
    assert case_on_screen(first_visit)["log"]["inputs"] == inputs[:-2]
    press(first_visit, first_visit.locator("#redo"))
    first_visit.reload()
    settled(first_visit)
    assert case_on_screen(first_visit)["log"]["inputs"] == inputs[:-1]
    press(first_visit, first_visit.locator("#redo"))
    assert case_on_screen(first_visit)["log"]["inputs"] == inputs
    expect(first_visit.locator("#redo")).to_be_disabled()


def test_cases_go_into_a_file_and_come_back(first_visit: Page, tmp_path: Path) -> None:
    """A file brings back what is gone, leaves what is here, doubles what differs."""
    start_demo(first_visit)
    to_shelf(first_visit)
    write(first_visit, row(first_visit), title="Blue set")
    with first_visit.expect_download() as saving:
        first_visit.get_by_role("button", name="Save all cases as a file").click()
    saved = json.loads(Path(saving.value.path()).read_text(encoding="utf-8"))
    (case,) = saved["cases"]
    other = {**case, "title": "Red set"}
    lost = {**case, "id": "lost", "title": "Green set"}
    broken = {**case, "id": "", "status": "opne"}
    file = tmp_path / "cases.json"
    file.write_text(json.dumps({**saved, "cases": [case, other, lost, broken]}), encoding="utf-8")
    first_visit.locator("#shelf-picker").set_input_files(file)
    told = first_visit.locator("#told")
    expect(told).to_contain_text("cases.json: 2 cases taken. 1 case of these kept here in another")
    expect(told.locator("li")).to_have_text(
        [
            "cases.3.id: found '', expected a text that stands for the case. Save the case as a "
            "file once more where it is kept.",
            "cases.3.status: found 'opne', expected one of open, waiting, part, bench, closed. "
            "Did you mean 'open'?",
        ]
    )
    titles = {record["id"]: record["title"] for record in kept(first_visit)}
    assert titles.pop(case["id"]) == "Blue set"
    assert titles.pop("lost") == "Green set"
    assert list(titles.values()) == ["Red set (from the file)"]
    file.write_text('{"dryjoint": "cases",', encoding="utf-8")
    first_visit.locator("#shelf-picker").set_input_files(file)
    expect(told).to_contain_text("Line 1, text: found ")
    assert len(kept(first_visit)) == 3


def test_our_own_cases_sharpen_priors_only_while_switched_on(first_visit: Page) -> None:
    """Off by default; on, the posterior follows, the record says so; off is as before."""
    start_demo(first_visit)
    before = numbers(first_visit)["causes"]
    press(first_visit, first_visit.locator("#to-record"))
    press(first_visit, first_visit.locator("#to-closing"))
    box = first_visit.locator(".tick input").first
    cause = str(box.get_attribute("name")).removeprefix("cause:")
    box.check()
    press(first_visit, first_visit.get_by_role("button", name="Close the case"))
    assert numbers(first_visit)["causes"] == before
    press(first_visit, first_visit.locator("#to-counts"))
    expect(first_visit.locator("#switch-words")).to_have_text(
        "Off: each cause is taken to be as common as the knowledge says."
    )
    expect(first_visit.locator("tbody").first.locator("tr")).to_have_count(1)
    press(first_visit, first_visit.locator("#count-in"))
    expect(first_visit.locator("#count-out")).to_be_focused()
    assert numbers(first_visit)["causes"][cause] > 1.1 * before[cause]
    press(first_visit, first_visit.locator("#to-record"))
    mark = "Counted in, beside the knowledge: one closed case of our own."
    expect(first_visit.locator("main > .private")).to_have_text(mark)
    expect(first_visit.locator("#paper")).to_contain_text(mark)
    assert "counts" not in case_on_screen(first_visit)["log"]
    to_shelf(first_visit)
    press(first_visit, first_visit.locator("#to-counts"))
    with first_visit.expect_download() as saving:
        first_visit.locator("#save-counts").click()
    (table,) = json.loads(Path(saving.value.path()).read_text(encoding="utf-8"))["families"]
    first = table["rows"][0]
    assert (table["sets"], first["cause"], first["times"]) == (1, cause, 1)
    assert abs(first["sharpened"] - (250 * first["prior"] + 1) / 251) < 1e-12
    press(first_visit, first_visit.locator("#count-out"))
    assert numbers(first_visit)["causes"] == before
