"""Entropy and information gain, in bits.

References:
    Cover & Thomas, Elements of Information Theory, 2nd ed., chapter 2.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log2
from operator import mul


def entropy(distribution: Sequence[float]) -> float:
    """Return the entropy of a distribution, in bits.

    >>> entropy([0.5, 0.5])
    1.0
    """
    return -sum(p * log2(p) for p in distribution if p > 0.0)


@dataclass(frozen=True, slots=True)
class Channel:
    """How the states of a variable show: `rows[state][outcome]` = P(outcome | state), sum 1.

    The entropies of the rows, in bits, are worked out once: no evidence changes them.
    """

    rows: tuple[tuple[float, ...], ...]
    row_entropies: tuple[float, ...]
    first: tuple[float, ...]  # P(first outcome | state)


def channel(rows: Sequence[Sequence[float]]) -> Channel:
    """Return the channel with the given rows."""
    first = tuple(row[0] for row in rows)
    return Channel(tuple(map(tuple, rows)), tuple(map(entropy, rows)), first)


def information_gain(states: Sequence[float], through: Channel) -> float:
    """Return the drop in entropy of the causes to expect from one check.

    The causes determine the variable, so the mutual information between the outcome and all
    causes together is that between the outcome and the variable.

    Args:
        states: P(state), shape (states,), sum 1.
        through: P(outcome | state).

    Returns:
        Mutual information in bits, in [0, log2(states)]; rounding noise below 0 becomes 0.

    >>> information_gain([0.5, 0.5], channel([[1.0, 0.0], [0.0, 1.0]]))
    1.0
    """
    if len(through.rows[0]) == 2:  # most checks: yes or no
        p: float = min(sum(map(mul, states, through.first)), 1.0)
        conditional: float = sum(map(mul, states, through.row_entropies))
        return max(entropy((p, 1.0 - p)) - conditional, 0.0)
    outcomes: list[float] = [0.0] * len(through.rows[0])
    expected = 0.0
    for share, row, spread in zip(states, through.rows, through.row_entropies, strict=True):
        if share > 0.0:
            outcomes = [total + share * q for total, q in zip(outcomes, row)]  # noqa: B905
            expected += share * spread
    positive = [p for p in outcomes if p > 0.0]
    bits: float = -sum(map(mul, positive, map(log2, positive)))
    return max(bits - expected, 0.0)
