from itertools import permutations
from random import Random

import pytest

from engine.inference.repairs import by_probability_over_cost, expected_cost


@pytest.mark.parametrize("seed", range(30))
def test_no_order_costs_less(seed: int) -> None:
    """Of all 120 orders of five repairs, none has a lower expected cost than falling p/c."""
    dice = Random(seed)
    weights = {name: dice.random() for name in "abcde"}
    p = {name: weight / sum(weights.values()) for name, weight in weights.items()}
    cost = {name: dice.uniform(1.0, 20.0) for name in "abcde"}
    least = min(expected_cost(order, p, cost) for order in permutations(p))
    best = expected_cost(by_probability_over_cost(p, cost), p, cost)
    assert best == pytest.approx(least, rel=1e-12)


def test_ties_go_by_name() -> None:
    """Equal p/c: the order is that of the names, whatever the order of the input."""
    p = {"c": 0.25, "a": 0.25, "b": 0.5}
    assert by_probability_over_cost(p, {"a": 1, "b": 2, "c": 1}) == ["a", "b", "c"]


def test_the_first_repair_is_always_paid_for() -> None:
    """The cost of a sure fault is that of its repair and all tried before it."""
    assert expected_cost(["a", "b"], {"a": 0.0, "b": 1.0}, {"a": 3.0, "b": 4.0}) == 7.0
    assert expected_cost(["b", "a"], {"a": 0.0, "b": 1.0}, {"a": 3.0, "b": 4.0}) == 4.0
