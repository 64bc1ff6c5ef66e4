"""Setting up in words."""

from collections.abc import Callable
from typing import get_args

import pytest

from engine.diagnosis.model import SetModel
from engine.setting_up.guiding import State
from engine.setting_up.reach import Kind, Reason
from engine.setting_up.sheet import Step
from engine.setting_up.verdict import Verdict
from engine.setting_up.words import STATES, reason_words, together_words

LOOP = "loop-crystal-oscillator.loop-trimmer-set"


def test_every_state_and_verdict_has_words() -> None:
    """Whatever the engine says can be told."""
    assert set(STATES) == {*get_args(State), *get_args(Verdict)}


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("everything", ""),
        ("itself", "it was put right or turned itself"),
        ("moved", "moved by what was done at: Loop crystal trimmer"),
        ("if-turned", "only if one of these had to be turned: Loop crystal trimmer"),
        (
            "looked-through",
            "it was set before this, which comes first, was right: Loop crystal trimmer",
        ),
    ],
)
def test_reasons_name_what_was_done(kind: Kind, words: str, model: SetModel) -> None:
    """By what is turned, not by what may be wrong with it."""
    assert reason_words(model, Reason(kind, (LOOP,))) == words


def test_a_pair_is_told_with_its_visits(model: SetModel, step_of: Callable[[str], Step]) -> None:
    """As many as are needed as a rule, in order."""
    assert together_words(model, step_of("receive-front-end.input-coil")) == (
        "In turn, 3 visits as a rule: Coupled coils of the front end, then Receive input coil, "
        "then Coupled coils of the front end"
    )
    assert together_words(model, step_of(LOOP)) == ""
