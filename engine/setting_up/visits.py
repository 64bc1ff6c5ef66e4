"""Adjustments that move each other: the fewest visits after which all of them hold.

The error of each is bounded, in tolerances. Setting one takes its error away and adds, to each
that it moves, at most its share of that error. So the bounds after any row of visits are known
before the first, and the shortest row is found by breadth-first search.
"""

from collections.abc import Mapping, Sequence

Shares = Mapping[tuple[str, str], float]
MOST = 12  # visits; adjustments that need more hardly settle at all
MANY = 500  # rows kept side by side; a knot with more is gone round until all hold


def least_visits(names: Sequence[str], shares: Shares, error: float) -> tuple[str, ...]:
    """Return the shortest row of visits after which every error is a tolerance or less.

    Args:
        names: the adjustments, in the order that is kept where it makes no difference.
        shares: one, other -> how much of a correction of one shows in the other, at least 0.
        error: the largest error of each before the first visit, in tolerances.

    Returns:
        The row; empty where `MOST` visits are not enough, because they chase each other, or
        where there are too many of them to search.

    >>> least_visits(["low", "high"], {("low", "high"): 0.3, ("high", "low"): 0.2}, 10.0)
    ('low', 'high', 'low')
    """
    rows: dict[tuple[str, ...], tuple[float, ...]] = {(): (error,) * len(names)}
    for _ in range(MOST):
        rows = {
            (*row, name): _after(names, shares, bounds, place)
            for row, bounds in rows.items()
            for place, name in enumerate(names)
            if row[-1:] != (name,)
        }
        for row, bounds in rows.items():
            if all(bound <= 1.0 for bound in bounds):
                return row
        if len(rows) > MANY:
            break
        rows = _undominated(rows)
    return ()


def _after(
    names: Sequence[str], shares: Shares, bounds: tuple[float, ...], place: int
) -> tuple[float, ...]:
    """Return the bounds after a visit to the adjustment at a place."""
    own = bounds[place]
    return tuple(
        0.0 if each == place else bound + shares.get((names[place], names[each]), 0.0) * own
        for each, bound in enumerate(bounds)
    )


def _undominated(
    rows: Mapping[tuple[str, ...], tuple[float, ...]],
) -> dict[tuple[str, ...], tuple[float, ...]]:
    """Return rows without those that an earlier one betters everywhere.

    A visit to the same adjustment twice changes nothing, so rows may end alike or not.
    """
    kept: dict[tuple[str, ...], tuple[float, ...]] = {}
    for row, bounds in rows.items():
        others = kept.values()
        if not any(all(a <= b for a, b in zip(each, bounds, strict=True)) for each in others):
            kept[row] = bounds
    return kept
