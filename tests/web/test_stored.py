"""What the page stores: how much a first visit moves, kinds of set, new versions, icons."""

import gzip
import json
import re
import shutil
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.web.driving import PATIENCE_MS, open_page, press, start_demo
from web.build.icons import drawn_icons
from web.build.site import service_worker
from web.serving import served

FIRST_VISIT_MB = 7.5
READY = re.compile(r"^Ready offline: the page and 1 of [2-9] kinds of set\.$")
OLD_WORDS, NEW_WORDS = "Nothing leaves this device.", "Nothing ever leaves this device."


def listed_parts(site: Path) -> dict[str, dict[str, Any]]:
    """Return what the service worker was told of each part."""
    (line,) = re.findall(
        r"^const PARTS = (.+);$", (site / "sw.js").read_text(encoding="utf-8"), re.MULTILINE
    )
    return dict(json.loads(line))


def test_a_first_visit_moves_no_more_than_meant(site: Path) -> None:
    """Runtime and app, each file under gzip, are all that is fetched until ready offline."""
    parts = listed_parts(site)
    assert sorted(parts) == ["app", "families", "runtime", "workshop"]
    paths = ["sw.js", *parts["runtime"]["files"], *parts["app"]["files"]]
    moved = {path: len(gzip.compress((site / path).read_bytes(), 9)) for path in paths}
    assert sum(moved.values()) / 1e6 <= FIRST_VISIT_MB, sorted(moved.items())
    assert sum(moved.values()) / 1e6 > FIRST_VISIT_MB / 2, "something was not counted"


@pytest.mark.parametrize(
    ("name", "size"), [("icon-192", 192), ("icon-512", 512), ("icon-maskable", 512)]
)
def test_an_icon_is_a_picture_of_its_size(name: str, size: int) -> None:
    """The icon is a whole PNG of the size its name says, in more than one colour."""
    data = drawn_icons()[f"{name}.png"]
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert struct.unpack(">II", data[16:24]) == (size, size)
    start = data.index(b"IDAT")
    (length,) = struct.unpack(">I", data[start - 4 : start])
    rows = zlib.decompress(data[start + 4 : start + 4 + length])
    assert len(rows) == size * (4 * size + 1)
    middle = rows[(size // 2) * (4 * size + 1) + 1 :][: 4 * size]
    assert len({middle[at : at + 4] for at in range(0, 4 * size, 4)}) > 2


def test_the_page_can_be_kept_as_an_app(site: Path) -> None:
    """The description names itself, its scope and icons that are there, one to be cut round."""
    told = json.loads((site / "app.webmanifest").read_text(encoding="utf-8"))
    assert [told[name] for name in ("id", "scope", "start_url")] == ["./", "./", "./"]
    assert {(icon["sizes"], icon["purpose"]) for icon in told["icons"]} == {
        ("any", "any"),
        ("192x192", "any"),
        ("512x512", "any"),
        ("512x512", "maskable"),
    }
    assert [icon for icon in told["icons"] if not (site / icon["src"]).is_file()] == []


def test_all_kinds_are_stored_when_asked_for(
    first_visit: Page, context: BrowserContext, address: str
) -> None:
    """The page says how many kinds are stored; asked for the others, it has all, offline too."""
    words, button = first_visit.locator("#offline-words"), first_visit.locator("#store-kinds")
    expect(words).to_have_text(
        "Ready offline: the page. A kind of set is stored when you choose it.", timeout=PATIENCE_MS
    )
    start_demo(first_visit)
    expect(words).to_have_text(READY)
    expect(button).to_have_text(
        re.compile(r"^Store the other \d kinds of set as well \(\d\.\d MB\)$")
    )
    button.click()
    expect(words).to_have_text(
        re.compile(r"^Ready offline: the page and all \d kinds of set\.$"), timeout=PATIENCE_MS
    )
    expect(button).to_be_hidden()
    context.set_offline(True)
    press(first_visit, first_visit.locator("#to-home"))
    press(first_visit, first_visit.locator("#not-sure button"))
    expect(first_visit.locator("#filter")).to_be_visible()


def deploy_new(live: Path) -> None:
    """Put a version with other words in the place of the one served, as a build would."""
    page = (live / "index.html").read_text(encoding="utf-8")
    assert page.count(OLD_WORDS) == 1
    (live / "index.html").write_text(page.replace(OLD_WORDS, NEW_WORDS), encoding="utf-8")
    parts = {
        name: {path: (live / path).read_bytes() for path in part["files"]}
        for name, part in listed_parts(live).items()
    }
    (live / "sw.js").write_bytes(service_worker(parts))


def test_a_new_version_is_offered_and_the_case_stays(
    context: BrowserContext, site: Path, tmp_path: Path
) -> None:
    """The old version stays until asked; both windows hear of the new; the case is open after."""
    live = tmp_path / "live"
    shutil.copytree(site, live)
    with served(live) as url:
        page, other = context.new_page(), context.new_page()
        open_page(page, url)
        start_demo(page)
        expect(page.locator("#offline-words")).to_have_text(READY, timeout=PATIENCE_MS)
        findings = page.locator("[data-finding]").all_inner_texts()
        open_page(other, url)
        deploy_new(live)
        open_page(page, url)
        for window in (page, other):
            expect(window.locator("#news")).to_be_visible(timeout=PATIENCE_MS)
            expect(window.locator("footer")).to_contain_text(OLD_WORDS)
        context.set_offline(True)  # all of it was stored before it was offered
        page.locator("#news button").click()
        expect(page.locator("footer")).to_contain_text(NEW_WORDS, timeout=PATIENCE_MS)
        page.locator("#map svg").wait_for(timeout=PATIENCE_MS)
        assert page.locator("[data-finding]").all_inner_texts() == findings
        other.locator("#news button").click()
        expect(other.locator("footer")).to_contain_text(NEW_WORDS, timeout=PATIENCE_MS)
        other.locator("#map svg").wait_for(timeout=PATIENCE_MS)
