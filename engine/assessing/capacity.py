"""The most that one check can tell, whatever is known: the capacity of its channel.

References:
    Cover & Thomas, Elements of Information Theory, 2nd ed., sections 7.1 and 10.8
    (Blahut-Arimoto).
"""

from collections.abc import Sequence
from functools import lru_cache
from math import exp2, log2

from engine.diagnosis.model import SetModel

ROUNDS = 200
CLOSE_BITS = 1e-4  # between the bounds from below and above


@lru_cache(maxsize=4096)
def capacity_bits(model: SetModel, check_id: str) -> float:
    """Return the most bits a check can tell; from above where it reads a frequency."""
    check = model.checks[check_id]
    if check.at is not None or not check.channel.rows:
        return log2(model.tree.states[check.looks_at])
    return capacity(check.channel.rows)


def capacity(rows: Sequence[Sequence[float]]) -> float:
    """Return the capacity of a channel in bits, from above, within `CLOSE_BITS` where it converges.

    Args:
        rows: P(outcome | state), shape (states, outcomes), rows sum to 1.

    >>> round(capacity([[0.9, 0.1], [0.1, 0.9]]), 3)
    0.531
    """
    shares = [1.0 / len(rows)] * len(rows)
    most = log2(len(rows))
    for _ in range(ROUNDS):
        outcomes = [sum(map(float.__mul__, shares, column)) for column in zip(*rows, strict=True)]
        tells = [_distance(row, outcomes) for row in rows]
        most = min(most, max(tells))
        weights = [share * exp2(bits) for share, bits in zip(shares, tells, strict=True)]
        total = sum(weights)
        if most - log2(total) < CLOSE_BITS:
            break
        shares = [weight / total for weight in weights]
    return most


def _distance(row: Sequence[float], outcomes: Sequence[float]) -> float:
    """Return the relative entropy of a row to the mean of all, in bits."""
    return sum(p * log2(p / q) for p, q in zip(row, outcomes, strict=True) if p > 0.0)
