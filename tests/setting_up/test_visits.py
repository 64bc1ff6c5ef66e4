"""The fewest visits to adjustments that move each other."""

from collections.abc import Sequence
from itertools import product
from random import Random

import pytest

from engine.setting_up.visits import MOST, Shares, least_visits


def holds(names: Sequence[str], shares: Shares, error: float, row: Sequence[str]) -> bool:
    """Say whether all errors are a tolerance or less after a row of visits, at worst."""
    errors = dict.fromkeys(names, error)
    for turned in row:
        for name in names:
            errors[name] += shares.get((turned, name), 0.0) * errors[turned]
        errors[turned] = 0.0
    return max(errors.values()) <= 1.0


def shortest(names: Sequence[str], shares: Shares, error: float, most: int) -> int | None:
    """Return the length of the shortest row, found by trying every row there is."""
    for length in range(1, most + 1):
        if any(holds(names, shares, error, row) for row in product(names, repeat=length)):
            return length
    return None


@pytest.mark.parametrize("seed", range(30))
def test_no_shorter_row_of_visits_exists(seed: int) -> None:
    """Against every row there is, on small random graphs of two to four adjustments."""
    dice = Random(seed)
    names = "abcd"[: dice.choice([2, 2, 3, 3, 4])]
    most = {2: 8, 3: 6, 4: 5}[len(names)]
    pairs = [(one, other) for one in names for other in names if one != other]
    shares = {pair: dice.choice([0.0, 0.1, 0.2, 0.4]) for pair in pairs}
    error = dice.choice([2.0, 5.0, 10.0])
    row = least_visits(names, shares, error)
    expected = shortest(names, shares, error, most)
    if expected is None:
        assert len(row) > most or row == ()
    else:
        assert len(row) == expected
        assert holds(names, shares, error, row)


def test_two_trimmers_on_one_crystal() -> None:
    """The one that carries the other along is set first, then both once more.

    By hand, from ten tolerances each: a leaves b at 20, b leaves a at 2, a leaves b at 2, b leaves
    a at 0.2. Beginning with b takes five.
    """
    shares = {("a", "b"): 1.0, ("b", "a"): 0.1}
    assert least_visits(["b", "a"], shares, 10.0) == ("a", "b", "a", "b")
    assert not holds("ab", shares, 10.0, "baba")
    assert holds("ab", shares, 10.0, "babab")


def test_two_that_chase_each_other_have_no_row() -> None:
    """Where each shows wholly in the other, no number of visits helps."""
    shares = {("a", "b"): 1.0, ("b", "a"): 1.0}
    assert least_visits(["a", "b"], shares, 10.0) == ()
    assert not holds("ab", shares, 10.0, "ab" * MOST)
