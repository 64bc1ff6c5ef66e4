"""The page boots in Firefox and in WebKit, and a case is worked there from complaint to verdict."""

import gc
import json
import os
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest

from engine.diagnosis.model import SetModel
from tests.conftest import FAMILY
from tests.web.other_browsers import Evaluate, firefox, webkit
from tests.web.simulating import FaultySet
from web.environment import missing_programs

Opened = Callable[[str, Path], AbstractContextManager[Evaluate]]
CAUSE, COMPLAINT = "loop-crystal-oscillator.loop-trimmer-set", "operating.told-off-frequency"
MOST_CHECKS = 12
PATIENCE_S = 90.0
ROOT = "document.documentElement.dataset"
SETTLED = f"{ROOT}.ready !== undefined && {ROOT}.settled === {ROOT}.shown"
CHECK = "document.querySelector('#check')?.dataset.check"


# What selenium warns of within itself, and sockets it leaves to the collector.
@pytest.mark.filterwarnings("ignore:setting remote_server_addr:DeprecationWarning")
@pytest.mark.parametrize(("name", "opened"), [("firefox", firefox), ("webkit", webkit)])
def test_another_browser_finishes_a_case(
    name: str, opened: Opened, address: str, model: SetModel, tmp_path: Path
) -> None:
    """A mis-set trimmer is found with a whole bench, and what to do about it is opened."""
    needs(name)
    broken = FaultySet(model, CAUSE, next(iter(model.causes[CAUSE].ways)))
    with collected(), opened(address, tmp_path / name) as evaluate:
        wait(evaluate, f"{ROOT}.ready !== undefined")
        complain(evaluate)
        verdict = finish(evaluate, broken)
        assert verdict == f"Sure enough to act: {model.causes[CAUSE].title}"
        press(evaluate, ".cause-title", there("#opened-cause"))
        words = evaluate("document.querySelector('#opened-cause').textContent")
        assert model.causes[CAUSE].act in words
        assert "Source: " in words
        assert evaluate("document.querySelector('#trouble')?.hidden ?? true") is True


def needs(name: str) -> None:
    """Skip where a browser is not on this machine, or fail where every test has to run."""
    missing = ", ".join(missing_programs(name))
    if missing and os.environ.get("DRYJOINT_BROWSER_REQUIRED"):
        pytest.fail(f"no {missing} on this machine")
    if missing:
        pytest.skip(f"no {missing} on this machine")


def complain(evaluate: Evaluate) -> None:
    """Start a case, tick what is wrong, say that a whole bench is there and the lid comes off."""
    press(evaluate, f"#family-{FAMILY} button.main", there("#filter"))
    press(evaluate, f'[id="tick-{COMPLAINT}"]', there(f'[id="tick-{COMPLAINT}"]:checked'))
    press(evaluate, "#to-kit", there("#lid"))
    press(evaluate, "p.row > button:nth-child(3)", there("#have-multimeter:checked"))
    press(evaluate, "#lid", there("#lid:checked"))
    press(evaluate, "#to-bench", there("#verdict"))


def finish(evaluate: Evaluate, broken: FaultySet) -> str:
    """Answer as the broken set does, to the end; return the verdict without the chance."""
    for _ in range(MOST_CHECKS):
        if not evaluate("document.querySelector('#verdict').matches('.measure, .confirm')"):
            break
        check = str(evaluate(CHECK))
        answer(evaluate, check, broken.says(check))
    sentence = str(evaluate("document.querySelector('#verdict .sentence').textContent"))
    return sentence.rpartition(", ")[0]


def answer(evaluate: Evaluate, check: str, said: str) -> None:
    """Answer the check on screen and wait until its finding is there."""
    then = there(f'[data-finding="{check}"]')
    if evaluate(there("#reading")):
        evaluate(f"(document.querySelector('#reading').value = {json.dumps(said)})")
        press(evaluate, "#check .answers button[type=submit]", then)
    else:
        press(evaluate, f'[id="answer-{said}"]', then)


def there(selector: str) -> str:
    """Return the condition that something is on screen."""
    return f"document.querySelector({json.dumps(selector)}) !== null"


@contextmanager
def collected() -> Iterator[None]:
    """Collect what is left at the end, so that no later test is told of an open socket."""
    try:
        yield
    finally:
        gc.collect()


def press(evaluate: Evaluate, selector: str, then: str) -> None:
    """Press the first one and wait until what should follow is there, complete."""
    evaluate(f"document.querySelector({json.dumps(selector)}).click()")
    wait(evaluate, f"({then}) && {SETTLED}")


def wait(evaluate: Evaluate, condition: str) -> None:
    """Wait until a condition holds in the page."""
    end = time.monotonic() + PATIENCE_S
    while not evaluate(condition):
        assert time.monotonic() < end, f"never came: {condition}; {evaluate(f'{ROOT}.ready')}"
        time.sleep(0.1)
