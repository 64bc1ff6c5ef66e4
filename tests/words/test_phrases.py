from math import log

import pytest

from engine.words.lexicon import lexicon
from engine.words.phrases import Index, Question, index, together


def test_each_phrase_is_filed_under_its_answer(filed: Index) -> None:
    """A phrase that names a bad state is filed under the sound answer as well, denied."""
    kept = [(each.key, each.text, set(each.concepts)) for each in filed.filed]
    assert [row for row in kept if row[0][0] == "hums"] == [
        (("hums", "yes"), "hum on reception", {"hum", "received", "received:hum"}),
        (
            ("hums", "no"),
            "not so: hum on reception",
            {"no:hum", "received", "received:no:hum"},
        ),
        (("hums", "yes"), "buzzing noise", {"hum"}),
        (("hums", "no"), "not so: buzzing noise", {"no:hum"}),
    ]


def test_a_bad_state_with_an_opposite_is_not_denied_twice(filed: Index) -> None:
    """Its denial says the opposite, and that has phrases of its own."""
    assert not any(each.text.startswith("not so: lamp gone") for each in filed.filed)


def test_what_is_rare_weighs_more() -> None:
    """Weights fall with the number of answers that a concept belongs to; pairs count half."""
    questions = (
        Question("one", "no", {"yes": ("hum", "valve")}),
        Question("two", "no", {"yes": ("hum", "fan")}),
        Question("three", "no", {"yes": ("belt",)}),
    )
    weights = index(questions, lexicon({})).weights
    assert weights["hum"] == pytest.approx(log(1 + 1.5 / 2.5) / log(1 + 2.5 / 1.5))
    assert weights["belt"] == 1.0
    assert set(weights) == {"belt", "fan", "hum", "valv"}


def test_a_pair_weighs_half(filed: Index) -> None:
    """It repeats two concepts that count already."""
    assert filed.weights["received:hum"] == 0.5


def test_clauses_are_read_together() -> None:
    """Places of the same concept are joined."""
    one, two = {"lamp": frozenset({(0, 4)})}, {"lamp": frozenset({(9, 13)})}
    assert together([one, two]) == {"lamp": frozenset({(0, 4), (9, 13)})}
