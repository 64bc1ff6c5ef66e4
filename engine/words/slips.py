"""Slips of the fingers: the one known word that a wrong one is nearly."""

from collections.abc import Iterable
from functools import lru_cache

SHORT = 5  # a shorter word has too many neighbours to be guessed
LONG = 8  # from here on two slips are forgiven


@lru_cache(maxsize=4096)
def distance(wrong: str, right: str) -> int:
    """Return how many single slips lead from one word to the other.

    A slip is a letter left out, added or changed, or two neighbours swapped: the restricted
    distance of Damerau, A technique for computer detection and correction of spelling errors,
    Communications of the ACM 7 (3), 1964.

    >>> distance("recieves", "receives"), distance("squelh", "squelch")
    (1, 1)
    """
    before: list[int] = []
    last = list(range(len(right) + 1))
    for i, letter in enumerate(wrong, start=1):
        row = [i]
        for j, other in enumerate(right, start=1):
            least = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (letter != other))
            swapped = i > 1 and j > 1 and letter == right[j - 2] and other == wrong[i - 2]
            row.append(min(least, before[j - 2] + 1) if swapped else least)
        before, last = last, row
    return last[-1]


def mended(word: str, known: Iterable[str]) -> str:
    """Return the known word that `word` is a slip of, or `word` itself; ties go by the alphabet.

    The first letter is taken to be right.
    """
    if len(word) < SHORT:
        return word
    most = 2 if len(word) >= LONG else 1
    near = [
        (distance(word, other), other)
        for other in known
        if other[:1] == word[:1] and abs(len(other) - len(word)) <= most and len(other) >= SHORT - 1
    ]
    best = min(near, default=(most + 1, word))
    return best[1] if best[0] <= most else word
