import pytest

from engine.words.clauses import clauses


def words(message: str) -> list[str]:
    """Return the clauses of a message as text."""
    return [" ".join(token.word for token in clause) for clause in clauses(message)]


@pytest.mark.parametrize(
    ("message", "expected"),
    [
        ("", []),
        (" ... ,", []),
        ("Receives fine, but nobody hears me", ["receives fine", "nobody hears me"]),
        ("the lamp and the meter move", ["the lamp and the meter move"]),
        ("no lamp and no sound", ["no lamp", "no sound"]),
        ("It\u2019s dead. Why?", ["it's dead", "why"]),
        ("No one hears no-one", ["noone hears noone"]),
        ("dead on channel 19 and above twenty", ["dead on channel number and above number"]),
    ],
)
def test_a_message_falls_into_clauses(message: str, expected: list[str]) -> None:
    """At marks, at contrasts, and at an "and" that begins something new."""
    assert words(message) == expected


def test_tokens_know_where_they_stood() -> None:
    """The words can be shown as they were written."""
    message = "NO ONE hears me"
    (clause,) = clauses(message)
    assert [message[token.start : token.end] for token in clause] == [
        "NO ONE",
        "hears",
        "me",
    ]
