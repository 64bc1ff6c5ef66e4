"""The page boots in Firefox and in WebKit, and a worked case is carried on there."""

import gc
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest

from tests.web.other_browsers import Evaluate, firefox, webkit, what_is_missing

Opened = Callable[[str, Path], AbstractContextManager[Evaluate]]
PATIENCE_S = 90.0
ROOT = "document.documentElement.dataset"
SETTLED = f"{ROOT}.ready !== undefined && {ROOT}.settled === {ROOT}.shown"


# What selenium warns of within itself, and sockets it leaves to the collector.
@pytest.mark.filterwarnings("ignore:setting remote_server_addr:DeprecationWarning")
@pytest.mark.parametrize(("name", "opened"), [("firefox", firefox), ("webkit", webkit)])
def test_another_browser_carries_a_case_on(
    name: str, opened: Opened, address: str, tmp_path: Path
) -> None:
    """The worked case is answered once more and its leading cause opened, with what to do."""
    missing = what_is_missing(name)
    if missing:
        pytest.skip(f"no {', '.join(missing)} on this machine")
    with collected(), opened(address, tmp_path / name) as evaluate:
        wait(evaluate, f"{ROOT}.ready !== undefined")
        press(evaluate, "#demo", "document.querySelector('#map svg') !== null")
        before = evaluate("document.querySelectorAll('[data-finding]').length")
        assert before > 1
        press(
            evaluate,
            "#cannot",
            f"document.querySelectorAll('[data-finding]').length === {before + 1}",
        )
        press(evaluate, ".cause-title", "document.querySelector('#opened-cause') !== null")
        words = evaluate("document.querySelector('#opened-cause').textContent")
        assert "What to do" in words or "What would be done" in words
        assert "Source: " in words
        assert evaluate("document.querySelector('#trouble')?.hidden ?? true") is True


@contextmanager
def collected() -> Iterator[None]:
    """Collect what is left at the end, so that no later test is told of an open socket."""
    try:
        yield
    finally:
        gc.collect()


def press(evaluate: Evaluate, selector: str, then: str) -> None:
    """Press the first one and wait until what should follow is there, complete."""
    evaluate(f"document.querySelector('{selector}').click()")
    wait(evaluate, f"({then}) && {SETTLED}")


def wait(evaluate: Evaluate, condition: str) -> None:
    """Wait until a condition holds in the page."""
    end = time.monotonic() + PATIENCE_S
    while not evaluate(condition):
        assert time.monotonic() < end, f"never came: {condition}; {evaluate(f'{ROOT}.ready')}"
        time.sleep(0.1)
