"""Heckerman, Breese & Rommelse 1995, Comm. ACM 38(3), 49-57; Kadane & Simon 1977: repairs by p/c.

The rule from there; the example and its costs by hand.
"""

from itertools import permutations

import pytest

from engine.inference.repairs import by_probability_over_cost, expected_cost

P = {"1": 0.5, "2": 0.3, "3": 0.2}
COST = {"1": 6.0, "2": 2.0, "3": 3.0}
ORDERS = {"213": 6.8, "231": 7.1, "123": 7.6, "321": 7.6, "132": 8.1, "312": 8.4}

TIED_P = {"1": 0.4, "2": 0.3, "3": 0.2, "4": 0.1}
TIED_COST = {"1": 20.0, "2": 5.0, "3": 10.0, "4": 1.0}


@pytest.mark.parametrize(("order", "cost"), ORDERS.items())
def test_expected_cost(order: str, cost: float) -> None:
    """The cost of each repair, times the chance that the fault is not among those before it."""
    assert expected_cost(order, P, COST) == pytest.approx(cost, rel=1e-12)


def test_p_over_c_is_best() -> None:
    """Falling p/c (0.15, 0.083, 0.067) costs 6.8, less than cheapest or likeliest first."""
    assert by_probability_over_cost(P, COST) == ["2", "1", "3"]
    assert min(ORDERS, key=ORDERS.__getitem__) == "213"


@pytest.mark.parametrize(("order", "cost"), [("4213", 19.5), ("4231", 19.5), ("1234", 26.1)])
def test_expected_cost_with_a_tie(order: str, cost: float) -> None:
    """Equal p/c: either order costs 19.5; likeliest first costs 26.1."""
    assert expected_cost(order, TIED_P, TIED_COST) == pytest.approx(cost, rel=1e-12)


def test_best_and_worst_of_the_tie() -> None:
    """The engine's order costs 19.5, the least of all 24; the worst costs 28.1."""
    every = [expected_cost(order, TIED_P, TIED_COST) for order in permutations(TIED_P)]
    chosen = by_probability_over_cost(TIED_P, TIED_COST)
    assert chosen == ["4", "2", "1", "3"]
    assert expected_cost(chosen, TIED_P, TIED_COST) == pytest.approx(min(every), rel=1e-12)
    assert max(every) == pytest.approx(28.1, rel=1e-12)
