"""How sure a figure of a simulated run is: 95 % intervals of shares and of anything else."""

from collections.abc import Callable, Sequence
from math import sqrt
from random import Random
from typing import TypeVar

Row = TypeVar("Row")
Interval = tuple[float, float]
Z = 1.959963984540054  # of the normal distribution, 97.5 %
RESAMPLES = 1000


def share_interval(found: int, of: int) -> Interval:
    """Return the 95 % interval of a share, by its score.

    References:
        Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212.

    >>> [round(bound, 4) for bound in share_interval(8, 10)]
    [0.4902, 0.9433]
    """
    if of == 0:
        return 0.0, 1.0
    p, square = found / of, Z * Z
    middle = (p + square / (2 * of)) / (1 + square / of)
    half = Z / (1 + square / of) * sqrt(p * (1 - p) / of + square / (4 * of * of))
    return max(middle - half, 0.0), min(middle + half, 1.0)


def bootstrap_interval(
    rows: Sequence[Row], figure: Callable[[Sequence[Row]], float], seed: int = 1
) -> Interval:
    """Return the 95 % interval of a figure of independent rows, by drawing them anew.

    References:
        Efron & Tibshirani, An Introduction to the Bootstrap (1993), section 13.3 (percentiles).

    Args:
        rows: one for each simulated set; at least one.
        figure: what is worked out of them.
        seed: of the dice; the same seed, the same interval.
    """
    dice = Random(seed)
    drawn = sorted(figure(dice.choices(rows, k=len(rows))) for _ in range(RESAMPLES))
    return drawn[round(0.025 * (RESAMPLES - 1))], drawn[round(0.975 * (RESAMPLES - 1))]
