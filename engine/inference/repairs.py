"""In which order to try repairs when one fault is left and each repair is also its own proof.

References:
    Heckerman, Breese & Rommelse, Communications of the ACM 38(3) (1995) 49-57.
    Kadane & Simon, Annals of Statistics 5 (1977) 237-255.
"""

from collections.abc import Mapping, Sequence


def by_probability_over_cost(p: Mapping[str, float], cost: Mapping[str, float]) -> list[str]:
    """Return repairs in falling p/c, the order of least expected cost; ties by name.

    Args:
        p: P(this is the fault), sum 1.
        cost: what trying each costs, above 0, any one unit.

    >>> by_probability_over_cost({"a": 0.5, "b": 0.3}, {"a": 6, "b": 2})
    ['b', 'a']
    """
    return sorted(p, key=lambda repair: (-p[repair] / cost[repair], repair))


def expected_cost(order: Sequence[str], p: Mapping[str, float], cost: Mapping[str, float]) -> float:
    """Return the expected cost of trying repairs in `order` until the fault is gone."""
    remaining, total = 1.0, 0.0
    for repair in order:
        total += remaining * cost[repair]
        remaining -= p[repair]
    return total
