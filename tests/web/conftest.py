import os
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from filelock import FileLock
from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Error,
    Page,
    sync_playwright,
)

from engine.diagnosis.case import Case, Kit, full_kit
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model, load_model
from engine.knowledge.library import read_library, read_texts
from tests.conftest import KB, ModelOf
from tests.web.driving import LAUNCH, WINDOW, clear_away, open_page
from web import answering, proof_answers, set_up_answers
from web.answering import bench_of
from web.build import build_site
from web.build.families import catalogue, proofs
from web.replaying import Replayed
from web.serving import served
from web.views.state import Bench

SMALL = Path(__file__).parents[1] / "knowledge" / "small"
FAMILY = "three-crystal-fm"
BROWSERS = 2  # at a time


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Share the files that need the built site among two processes, each with a browser of its own.

    A page is handed from test to test within one.
    """
    with_site = [item for item in items if "site" in getattr(item, "fixturenames", ())]
    files = sorted({item.path for item in with_site})
    for item in with_site:
        group = f"site-{files.index(item.path) % BROWSERS}"
        item.add_marker(pytest.mark.xdist_group(group))


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the real site, built by whichever process needs it first."""
    if "PYTEST_XDIST_WORKER" not in os.environ:
        return build_site(tmp_path_factory.mktemp("built") / "site").folder
    shared = tmp_path_factory.getbasetemp().parent
    with FileLock(shared / "site.lock"):
        if not (shared / "built").exists():
            build_site(shared / "building")
            (shared / "building").rename(shared / "built")
    return shared / "built"


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    """Return where the site is served."""
    with served(site) as url:
        yield url


@pytest.fixture(scope="session")
def model(site: Path) -> SetModel:
    """Return the family the page works with, loaded natively."""
    (family,) = site.glob(f"families-*/{FAMILY}.model")
    return load_model(zlib.decompress(family.read_bytes()).decode())


@pytest.fixture(scope="session")
def small_model() -> SetModel:
    """Return a tiny invented set, for views that need no browser."""
    return compile_family(read_library(SMALL), "beacon")


@pytest.fixture
def fresh(small_model: SetModel) -> Bench:
    """Return the tiny set with nothing found yet and every instrument."""
    return bench_of(small_model, Replayed(Case("beacon", full_kit(small_model), ())))


@pytest.fixture
def bare(small_model: SetModel) -> Bench:
    """Return the tiny set with no instrument and the lid on."""
    return bench_of(small_model, Replayed(Case("beacon", Kit(frozenset(), "on"), ())))


@pytest.fixture(scope="session")
def proof_texts() -> bytes:
    """Return what is measured on every kind of set, as the built site holds it."""
    return proofs(read_texts(KB))


@pytest.fixture
def finished(
    model_of: ModelOf, proof_texts: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[None]:
    """Let all parts know one real set, as a built site would."""
    real = model_of(FAMILY)
    (tmp_path / "catalogue.json").write_bytes(catalogue({FAMILY: real}, "1.2.3"))
    (tmp_path / proof_answers.PROOFS).write_bytes(proof_texts)
    for module in (answering, proof_answers):
        monkeypatch.setattr(module, "HERE", tmp_path)
    monkeypatch.setattr(answering, "MODELS", {})
    for module in (proof_answers, set_up_answers):
        monkeypatch.setattr(module, "MODELS", answering.MODELS)
    answering.catalogue.cache_clear()
    proof_answers._read_sheet.cache_clear()
    answering.learn(FAMILY, dump_model(real))
    yield
    answering.catalogue.cache_clear()
    proof_answers._read_sheet.cache_clear()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return Chromium."""
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(**LAUNCH)
        yield chromium
        chromium.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Return a browser that has seen nothing yet."""
    own = browser.new_context(viewport=WINDOW)
    yield own
    own.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    """Return an empty page."""
    return context.new_page()


@contextmanager
def listening(page: Page) -> Iterator[list[str]]:
    """Hear what the console complains of; there is to be nothing at the end."""
    heard: list[str] = []

    def hear(message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            heard.append(message.text)

    def stumble(error: Error) -> None:
        heard.append(str(error))

    page.on("console", hear)
    page.on("pageerror", stumble)
    yield heard
    page.remove_listener("console", hear)
    page.remove_listener("pageerror", stumble)
    assert heard == []


@pytest.fixture
def complaints(page: Page) -> Iterator[list[str]]:
    """Return what the console complains of; a test with any left at its end fails."""
    with listening(page) as heard:
        yield heard


@pytest.fixture
def first_visit(page: Page, address: str, complaints: list[str]) -> Page:
    """Return the page, ready, in a browser that had seen nothing, its console watched."""
    open_page(page, address)
    return page


@pytest.fixture(scope="session")
def left_open() -> list[Page]:
    """Return the pages that a test has left as they were when it began: one, or none."""
    return []


@pytest.fixture
def opened(
    browser: Browser, address: str, left_open: list[Page], request: pytest.FixtureRequest
) -> Iterator[Page]:
    """Return the page, ready, with no case, its console watched (it tells breaches of the policy).

    Starting Python takes longer than most tests, so the page is handed on; after a test that
    failed it is not.
    """
    page = left_open.pop() if left_open else browser.new_context(viewport=WINDOW).new_page()
    failed = request.session.testsfailed
    with listening(page):
        if page.url == "about:blank":
            open_page(page, address)
        yield page
        if request.session.testsfailed == failed:
            clear_away(page)
            left_open.append(page)
        else:
            page.context.close()
