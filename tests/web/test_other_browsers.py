"""The page boots in Firefox and in WebKit, and a worked case is carried on there."""

import time
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path

import pytest

from tests.web.other_browsers import Evaluate, firefox, webkit, what_is_missing

Opened = Callable[[str, Path], AbstractContextManager[Evaluate]]
PATIENCE_S = 90.0
ROOT = "document.documentElement.dataset"
SETTLED = f"{ROOT}.ready !== undefined && {ROOT}.settled === {ROOT}.shown"


# What selenium warns of within itself, and a socket it leaves to the collector.
@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
@pytest.mark.filterwarnings("ignore:setting remote_server_addr:DeprecationWarning")
@pytest.mark.parametrize(("name", "opened"), [("firefox", firefox), ("webkit", webkit)])
def test_another_browser_carries_a_case_on(
    name: str, opened: Opened, address: str, tmp_path: Path
) -> None:
    """The worked case is answered once more and its leading cause opened, with what to do."""
    missing = what_is_missing(name)
    if missing:
        pytest.skip(f"no {', '.join(missing)} on this machine")
    with opened(address, tmp_path / name) as evaluate:
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
