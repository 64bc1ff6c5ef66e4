from itertools import combinations, permutations
from random import Random

import pytest

from engine.inference.repairs import Trial, by_probability_over_cost, cheapest_plan, expected_cost


def _trials(seed: int, count: int, total: float) -> list[Trial]:
    """Return repairs whose chances sum to `total`."""
    dice = Random(f"repairs {seed}")
    weights = [dice.random() for _ in range(count)]
    return [
        Trial(name, total * weight / sum(weights), dice.uniform(1.0, 20.0))
        for name, weight in zip("abcdef", weights, strict=False)
    ]


@pytest.mark.parametrize("seed", range(30))
def test_no_order_costs_less(seed: int) -> None:
    """Of all 120 orders of five repairs, none has a lower expected cost than falling p/c."""
    trials = _trials(seed, 5, 1.0)
    least = min(map(expected_cost, permutations(trials)))
    assert expected_cost(by_probability_over_cost(trials)) == pytest.approx(least, rel=1e-12)


@pytest.mark.parametrize("seed", range(30))
def test_no_choice_of_repairs_costs_less(seed: int) -> None:
    """Of all orders of all subsets before a last resort, none is cheaper than the plan."""
    trials = _trials(seed, 5, 0.9)
    price = Random(f"price {seed}").uniform(5.0, 60.0)
    every = [
        expected_cost(order, price)
        for count in range(6)
        for some in combinations(trials, count)
        for order in permutations(some)
    ]
    plan = cheapest_plan(trials, price)
    assert plan.cost == pytest.approx(min(every), rel=1e-12)
    assert expected_cost(plan.order, price) == pytest.approx(plan.cost, rel=1e-12)


def test_some_repairs_are_left_to_the_last_resort() -> None:
    """The choice above is a real one: among those plans some are whole, some are not."""
    counts = {
        len(cheapest_plan(_trials(seed, 5, 0.9), Random(f"price {seed}").uniform(5.0, 60.0)).order)
        for seed in range(30)
    }
    assert {0, 5} <= counts
    assert counts & {1, 2, 3, 4}


@pytest.mark.parametrize("seed", range(30))
def test_several_faults_are_no_dearer_than_the_best_order_by_a_tenth(seed: int) -> None:
    """With two faults expected, exchanging neighbours finds an order near the best of all 120."""
    trials = _trials(seed, 5, 2.0)
    least = min(expected_cost(order, 1000.0, 2.0) for order in permutations(trials))
    plan = cheapest_plan(trials, 1000.0, 2.0)
    assert least - 1e-9 <= plan.cost <= 1.1 * least


def test_two_sure_faults_are_both_paid_for() -> None:
    """The one whose repair may end it goes first where both are paid for in any case."""
    both = [Trial("a", 1.0, 30.0), Trial("b", 1.0, 10.0)]
    assert expected_cost(both, 100.0, 2.0) == 40.0
    likely, unlikely = Trial("diode", 0.9, 28.0), Trial("fuse", 0.6, 11.0)
    plan = cheapest_plan([unlikely, likely], 100.0, 1.6)
    assert plan.order == (likely, unlikely)
    assert plan.cost == pytest.approx(28.0 + 0.7 * 11.0 + 0.1 * 100.0, rel=1e-12)


def test_ties_go_by_name() -> None:
    """Equal p/c: the order is that of the names, whatever the order of the input."""
    trials = [Trial("c", 0.25, 1.0), Trial("a", 0.25, 1.0), Trial("b", 0.5, 2.0)]
    assert [each.name for each in by_probability_over_cost(trials)] == ["a", "b", "c"]


def test_the_first_repair_is_always_paid_for() -> None:
    """The cost of a sure fault is that of its repair and all tried before it."""
    first, second = Trial("a", 0.0, 3.0), Trial("b", 1.0, 4.0)
    assert expected_cost([first, second]) == 7.0
    assert expected_cost([second, first]) == 4.0


def test_a_repair_after_a_look_is_paid_where_something_is_found() -> None:
    """Looks of 2 before repairs of 20, sure ones: 2 for the first, half of 2, and one repair."""
    trials = [Trial(name, 0.5, 2.0, found_cost=0.5 * 20.0) for name in "ab"]
    assert expected_cost(trials) == 2.0 + 0.5 * 2.0 + 20.0
