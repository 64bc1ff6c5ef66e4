"""Replies as people write them: what is read out of them, what is not, and why."""

import pytest

from engine.diagnosis.messages.replies import Unclear, read_reply
from engine.diagnosis.messages.reply_words import outcome_meant
from engine.diagnosis.model import SetModel

ASKED = ("operating.reception-as-always", "meter.meter-on-transmit", "supply.supply-volts")
NO_LIKENESS = "These words fit none of the answers that were offered."

READ = {
    "in one line": ("1b 2a 3 12.4 V", {1: "no", 2: "as-usual", 3: "12.4 V"}),
    "glued": ("1B2A", {1: "no", 2: "as-usual"}),
    "with colons, a comma in the number": (
        "1: no\n2: less than before\n3: 12,4 volts",
        {1: "no", 2: "less", 3: "12,4 volts"},
    ),
    "brackets after quoted lines": (
        "On Monday the help desk wrote:\n> 1a Yes\n> 2a Up\n1) b  2) d 3) about 12",
        {1: "no", 2: "still", 3: "12"},
    ),
    "dashes are no minus signs": ("1-b 2-a 3-12.4", {1: "no", 2: "as-usual", 3: "12.4"}),
    "a minus sign is one after a space": ("3 -12.4 V", {3: "-12.4 V"}),
    "sentences": ("1. Yes 2. Still 3. 13.8", {1: "yes", 2: "still", 3: "13.8"}),
    "in any order": ("3: 12.4 V 1: B 2: c", {1: "no", 2: "more", 3: "12.4 V"}),
    "cannot say": ("1 ?, 2e, 3 not sure", dict.fromkeys((1, 2, 3), "cannot-check")),
    "y and n": ("1y", {1: "yes"}),
    "numbers in a story": ("It took 2 days. 1b, after 3 hours", {1: "no"}),
    "the same twice": ("1b\n1 no", {1: "no"}),
    "below a forwarded message": ("1b\n-----Original Message-----\n2a", {1: "no"}),
    "an option list sent back is no answer": ("1a Yes\n1b No\n2b less", {2: "less"}),
}

UNCLEAR = {
    "no such question": ("7b", Unclear(7, "7b", "There is no question 7.")),
    "no such letter": ("2z", Unclear(2, "2z", "Question 2 has the letters a to e.")),
    "out of span": ("3 99 V", Unclear(3, "3 99 V", "Found 99 V, expected -30 to 40 V.")),
    "two numbers": (
        "3 12 point 4",
        Unclear(3, "3 12 point 4", "Question 3 asks for one number in V."),
    ),
    "a letter that is a word": ("1 a bit", Unclear(1, "1 a bit", NO_LIKENESS)),
    "denied": ("2 not as usual", Unclear(2, "2 not as usual", NO_LIKENESS)),
    "not alike": ("2a 2c", Unclear(2, "2a; 2c", "Answered twice, and not alike.")),
}


@pytest.mark.parametrize(("text", "said"), READ.values(), ids=READ)
def test_a_reply_is_read(model: SetModel, text: str, said: dict[int, str]) -> None:
    """Numbers with letters, figures or words, in any order; quoted lines are left aside."""
    reply = read_reply(model, ASKED, text)
    assert {each.number: each.said for each in reply.answers} == said
    assert reply.unclear == ()


@pytest.mark.parametrize(("text", "unclear"), UNCLEAR.values(), ids=UNCLEAR)
def test_what_is_unclear_is_told(model: SetModel, text: str, unclear: Unclear) -> None:
    """Where, and why; nothing is guessed."""
    reply = read_reply(model, ASKED, text)
    assert reply.unclear == (unclear,)
    assert reply.answers == ()


def test_the_other_words_are_kept(model: SetModel) -> None:
    """What belongs to no question stays, line by line, to be looked through for symptoms."""
    reply = read_reply(model, ASKED, "Thanks!\n1b but only on channel 9\nthe lamp is dark")
    assert reply.rest == "Thanks!\nbut only on channel 9\nthe lamp is dark"


def test_an_answer_in_words_has_to_be_the_only_one_that_fits(model: SetModel) -> None:
    """Half of the words of one answer, more than of any other."""
    check = model.checks["meter.meter-on-transmit"]
    assert outcome_meant(check, "less than it used to go up") == "less"
    assert outcome_meant(check, "it does not move") == "still"
    assert outcome_meant(check, "it used to") is None
