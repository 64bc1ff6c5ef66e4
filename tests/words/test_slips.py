import pytest

from engine.words.slips import distance, mended

KNOWN = ("squelch", "receiv", "microphon", "meter", "lamp")


@pytest.mark.parametrize(
    ("wrong", "right", "slips"),
    [
        ("", "", 0),
        ("meter", "meter", 0),
        ("meter", "metre", 1),  # two neighbours swapped
        ("squelh", "squelch", 1),
        ("squellch", "squelch", 1),
        ("kitten", "sitting", 3),
        ("ca", "abc", 3),  # restricted: no letter moves twice
    ],
)
def test_slips_are_counted(wrong: str, right: str, slips: int) -> None:
    """A letter left out, added, changed, or swapped with its neighbour is one."""
    assert distance(wrong, right) == distance(right, wrong) == slips


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("squelsh", "squelch"),
        ("reciev", "receiv"),
        ("mikrofon", "mikrofon"),  # three slips
        ("micrafone", "micrafone"),  # too far off
        ("microfon", "microphon"),
        ("lmap", "lmap"),  # short words are left alone
        ("beter", "beter"),  # the first letter is taken to be right
        ("tractor", "tractor"),
    ],
)
def test_a_slip_is_mended(word: str, expected: str) -> None:
    """To the nearest known word, when it is near enough to be meant."""
    assert mended(word, KNOWN) == expected


def test_the_nearest_is_taken_and_ties_go_by_the_alphabet() -> None:
    """The result does not depend on the order of the words."""
    known = {"hummer", "hammer"}
    assert mended("himmer", known) == "hammer"
    assert mended("hummar", known) == "hummer"
