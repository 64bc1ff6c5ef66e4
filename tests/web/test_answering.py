"""What the worker is told: one answer or one problem for every request."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model
from web import answering
from web.build.families import catalogue

EVERYTHING = [
    {"do": "kit", "instruments": ["multimeter", "power-meter", "dummy-load"]},
    {"do": "lid", "lid": "off"},
]


@pytest.fixture
def desk(small_model: SetModel, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Let the answering side know the tiny set, as a built site would."""
    (tmp_path / "catalogue.json").write_bytes(catalogue({"beacon": small_model}, "1.2.3"))
    monkeypatch.setattr(answering, "HERE", tmp_path)
    monkeypatch.setattr(answering, "MODELS", {})
    answering.catalogue.cache_clear()
    answering.learn("beacon", dump_model(small_model))
    yield
    answering.catalogue.cache_clear()


def ask(verb: str, **args: Any) -> Any:
    """Return the reply to one request."""
    return json.loads(answering.answer(json.dumps({"id": 1, "verb": verb, "args": args})))


def log(*inputs: Any) -> Any:
    """Return a case of the tiny set with everything at hand."""
    return {"format": 1, "family": "beacon", "inputs": [*EVERYTHING, *inputs]}


@pytest.mark.usefixtures("desk")
def test_first_screen_needs_no_case() -> None:
    """Without a case the first screen is shown."""
    reply = ask("show", log=None, view={"screen": "home"})
    assert "Hill-farm beacon" in reply["answer"]["html"]


@pytest.mark.usefixtures("desk")
def test_wrong_last_entry_is_not_accepted() -> None:
    """An entry that cannot be used changes nothing and moves the focus to its field."""
    wrong = {"do": "answer", "check": "sender.power", "said": "plenty"}
    reply = ask("show", log=log(wrong), view={"screen": "bench"})["answer"]
    assert not reply["accepted"]
    assert reply["focus"] == "reading"
    assert 'value="plenty"' in reply["html"]


@pytest.mark.usefixtures("desk")
def test_reading_is_taken_in_its_own_unit() -> None:
    """A reading in another unit of power is understood, and shown as it was understood."""
    given = {"do": "answer", "check": "sender.power", "said": "500 mW"}
    reply = ask("show", log=log(given), view={"screen": "bench", "check": "sender.power"})
    assert reply["answer"]["accepted"]
    assert "Entered so far: 500 mW, understood as “500 mW is 0.5 W”." in reply["answer"]["html"]


@pytest.mark.usefixtures("desk")
def test_looking_ahead_ends() -> None:
    """Each answer of the check at hand is worked out once: cannot check, yes, no."""
    view = {"screen": "bench", "check": "supply.dark"}
    more = [ask("foresee", log=log(), view=view, answer=n)["answer"]["more"] for n in range(4)]
    assert more == [True, True, False, False]


@pytest.mark.usefixtures("desk")
def test_order_by_minutes_looks_at_every_check(small_model: SetModel) -> None:
    """The best check a minute comes first even when its gain is not among the best."""
    view = {"screen": "bench", "order": "minutes"}
    shown = ask("show", log=log(), view=view)["answer"]["html"]
    numbers = ask("numbers", log=log())["answer"]["gains_bits"]
    best = max(numbers, key=lambda check: numbers[check] / small_model.checks[check].minutes)
    assert f'data-check="{best}"' in shown


@pytest.mark.usefixtures("desk")
def test_saved_file_opens_again() -> None:
    """A case saved by the page comes back; anything else is refused in words."""
    saved = log({"do": "answer", "check": "supply.dark", "said": "yes"})
    assert ask("opened", text=json.dumps(saved))["answer"]["log"] == saved
    for text, words in (
        ("nonsense", "holds no case. A case is a .json file"),
        ('{"format": 99, "family": "beacon", "inputs": []}', "format 99"),
        ('{"format": 1, "family": "other", "inputs": []}', "'other'"),
        ('{"format": 1, "family": [], "inputs": []}', "'[]'"),
    ):
        problem = ask("opened", text=text)["problem"]
        assert problem["kind"] == "refused"
        assert words in problem["words"]


DAMAGED = {
    "letters": "abc",
    "a mapping": {},
    "numbers": [1],
    "nothing to do": [{}],
    "doing a number": [{"do": 1}],
    "an answer to nothing": [{"do": "answer"}],
    "an answer to a list": [{"do": "answer", "check": ["supply.dark"]}],
    "a number said": [{"do": "answer", "check": "supply.dark", "said": 1}],
    "nothing withdrawn": [{"do": "withdraw"}],
    "nothing to have": [{"do": "have"}],
    "nothing to lack": [{"do": "lack"}],
    "a kit of letters": [{"do": "kit", "instruments": "multimeter"}],
    "a kit of numbers": [{"do": "kit", "instruments": [1]}],
    "a lid of nothing": [{"do": "lid"}],
}


@pytest.mark.usefixtures("desk")
@pytest.mark.parametrize("inputs", DAMAGED.values(), ids=DAMAGED)
def test_damaged_file_is_refused(inputs: Any) -> None:
    """Inputs that no page writes are refused before they replace anything."""
    reply = ask("opened", text=json.dumps({"format": 1, "family": "beacon", "inputs": inputs}))
    words = "This file is damaged: what was entered cannot be read from it."
    assert reply == {"problem": {"kind": "refused", "words": words}}


@pytest.mark.usefixtures("desk")
def test_file_of_a_later_page_opens() -> None:
    """What this page cannot do is set aside when the case is shown, not refused with the rest."""
    saved = log({"do": "marvel", "check": "supply.dark"})
    assert ask("opened", text=json.dumps(saved))["answer"]["log"] == saved
    shown = ask("show", log=log(*saved["inputs"], {"do": "note"}), view={"screen": "bench"})
    assert shown["answer"]["accepted"]
