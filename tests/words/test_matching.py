import pytest

from engine.words.matching import Candidate, candidates
from engine.words.phrases import Index


def brief(message: str, filed: Index) -> list[tuple[str, str, str]]:
    """Return question, answer and words of each candidate."""
    return [(c.question, c.answer, c.words) for c in candidates(message, filed)]


def test_a_candidate_says_what_it_was_taken_from(filed: Index) -> None:
    """The whole record: the answer, whether that is a fault, the score, words and phrase."""
    found = candidates("Well, NOBODY can hear me!", filed)
    assert found == (
        Candidate("heard", "yes", True, found[0].score, "NOBODY can hear", "nobody hears me"),
    )
    assert 0.5 < found[0].score < 1.0


@pytest.mark.parametrize(
    ("message", "expected"),
    [
        (
            "reception is fine but nobody hears me",
            [("heard", "yes", "nobody hears"), ("hears", "no", "reception is fine")],
        ),
        ("there is no hum on reception", [("hums", "no", "no hum on reception")]),
        ("the lamp doesn't work, gone", [("lamp", "dark", "lamp doesn't work, gone")]),
        ("the lamp works", [("lamp", "bright", "lamp works")]),
    ],
)
def test_what_is_there_and_what_is_not(
    message: str, expected: list[tuple[str, str, str]], filed: Index
) -> None:
    """Each part of a message gives its own candidate, denials as denials."""
    assert sorted(brief(message, filed)) == sorted(expected)


@pytest.mark.parametrize("message", ["", "?!", "the sheep are in the top pasture", "a the it"])
def test_nothing_is_guessed(message: str, filed: Index) -> None:
    """A message that is like no phrase gives no candidate."""
    assert candidates(message, filed) == ()


def test_the_same_message_gives_the_same_answer(filed: Index) -> None:
    """And no more than are asked for."""
    message = "nobody hears me and no lamp and my reception is fine"
    assert candidates(message, filed) == candidates(message, filed)
    assert len(candidates(message, filed)) == 3
    assert candidates(message, filed, 1) == candidates(message, filed)[:1]
