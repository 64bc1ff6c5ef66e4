from collections.abc import Callable
from pathlib import Path

import pytest

Talk = Callable[..., str]

CONFIRMED = """\
Which of these are true? Numbers, your own words, or nothing: there is no lamp that lights
  1  No lamp lights
       from: no lamp that lights
Which of these did you mean? Numbers, or nothing to say it in other words: 1
"""
IN_OTHER_WORDS = """\
Which of these are true? Numbers, your own words, or nothing: the ewes are in the barn
Nothing found in these words. Say it in others, or pick from the list above.
Which of these are true? Numbers, your own words, or nothing: no lamp lights
  1  No lamp lights
       from: no lamp lights
Which of these did you mean? Numbers, or nothing to say it in other words: \n\
Which of these are true? Numbers, your own words, or nothing: they hear me faintly
  1  Others hear the set weakly: Faint
       from: hear me faintly
Which of these did you mean? Numbers, or nothing to say it in other words: 1
"""


@pytest.fixture
def with_phrases(bench: Path) -> None:
    """Let the tiny knowledge base hold what owners say of one symptom."""
    sender = bench / "blocks" / "sender.yaml"
    text = sender.read_text(encoding="utf-8")
    asks = "    asks: Do others hear you weakly?\n"
    said = "    said:\n      faint: [they hear me faintly]\n"
    sender.write_text(text.replace(asks, asks + said), encoding="utf-8")


def test_a_sentence_is_proposed_and_confirmed(talk: Talk) -> None:
    """What is confirmed is entered."""
    said = talk("all\nyes\nthere is no lamp that lights\n1\nfound\nstop")
    assert CONFIRMED in said
    assert "> found\n  1  No lamp lights: yes\n" in said


@pytest.mark.usefixtures("with_phrases")
def test_nothing_is_entered_unless_it_is_confirmed(talk: Talk) -> None:
    """A sentence that finds nothing, or not what was meant, is asked for again."""
    said = talk(
        "all\nyes\nthe ewes are in the barn\nno lamp lights\n\nthey hear me faintly\n1\nfound\nstop"
    )
    assert IN_OTHER_WORDS in said
    assert "> found\n  1  Others hear the set weakly: faint\n" in said


@pytest.mark.parametrize("lines", ["all\nyes\nstop", "all\nyes\nno lamp lights\nstop\nstop"])
def test_one_can_stop_at_either_question(lines: str, talk: Talk) -> None:
    """Stopping is no answer."""
    assert "Next:" not in talk(lines)
