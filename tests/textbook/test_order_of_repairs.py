"""Heckerman, Breese & Rommelse 1995, Comm. ACM 38(3), 49-57; Kadane & Simon 1977: repairs by p/c.

The rule from there; the examples and their costs by hand. The second half takes them through the
whole engine: an invented set is written as knowledge, compiled, given its complaint, and weighed.
"""

from itertools import permutations

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.costing.weighing import Costs, weigh
from engine.diagnosis.entry import read_answer
from engine.diagnosis.making.compiling import compile_family
from engine.inference.repairs import Trial, by_probability_over_cost, expected_cost
from engine.knowledge.library import load, read_texts
from tests.diagnosis.conftest import SMALL

THREE = {"1": Trial("1", 0.5, 6), "2": Trial("2", 0.3, 2), "3": Trial("3", 0.2, 3)}
ORDERS = {"213": 6.8, "231": 7.1, "123": 7.6, "321": 7.6, "132": 8.1, "312": 8.4}

TIED = {
    "1": Trial("1", 0.4, 20), "2": Trial("2", 0.3, 5),
    "3": Trial("3", 0.2, 10), "4": Trial("4", 0.1, 1),
}  # fmt: skip

NOISY = {"1": 0.50, "2": 0.25, "3": 0.15, "4": 0.10}
T1 = {"1": 0.95, "2": 0.05, "3": 0.05, "4": 0.05}  # chance of a bad reading, by fault
RARE = 1e-6  # of the priors: two faults at a time are then next to impossible


@pytest.mark.parametrize(("order", "cost"), ORDERS.items())
def test_expected_cost(order: str, cost: float) -> None:
    """The cost of each repair, times the chance that the fault is not among those before it."""
    assert expected_cost([THREE[name] for name in order]) == pytest.approx(cost, rel=1e-12)


def test_p_over_c_is_best() -> None:
    """Falling p/c (0.15, 0.083, 0.067) costs 6.8, less than cheapest or likeliest first."""
    chosen = by_probability_over_cost(THREE.values())
    assert "".join(each.name for each in chosen) == "213"
    assert min(ORDERS, key=ORDERS.__getitem__) == "213"


@pytest.mark.parametrize(("order", "cost"), [("4213", 19.5), ("4231", 19.5), ("1234", 26.1)])
def test_expected_cost_with_a_tie(order: str, cost: float) -> None:
    """Equal p/c: either order costs 19.5; likeliest first costs 26.1."""
    assert expected_cost([TIED[name] for name in order]) == pytest.approx(cost, rel=1e-12)


def test_best_and_worst_of_the_tie() -> None:
    """The engine's order costs 19.5, the least of all 24; the worst costs 28.1."""
    every = [expected_cost(order) for order in permutations(TIED.values())]
    chosen = by_probability_over_cost(TIED.values())
    assert "".join(each.name for each in chosen) == "4213"
    assert expected_cost(chosen) == pytest.approx(min(every), rel=1e-12)
    assert max(every) == pytest.approx(28.1, rel=1e-12)


def test_three_parts_through_the_engine() -> None:
    """Written as a set with that complaint: the order 2, 1, 3 at 6.8 minutes."""
    costs = _weighed({name: (each.p, each.cost) for name, each in THREE.items()})
    assert [each.cause for each in costs.attempts] == ["row.part-2", "row.part-1", "row.part-3"]
    chances = {each.cause[-1]: each.chance for each in costs.attempts}
    assert chances == pytest.approx({"1": 0.5, "2": 0.3, "3": 0.2}, abs=1e-4)
    assert costs.expected_min == pytest.approx(6.8, abs=1e-3)


def test_the_tie_through_the_engine() -> None:
    """Four parts: 4 and 2 first, 1 and 3 in either order, 19.5 minutes."""
    costs = _weighed({name: (each.p, each.cost) for name, each in TIED.items()})
    order = "".join(each.cause[-1] for each in costs.attempts)
    assert order in ("4213", "4231")
    assert costs.expected_min == pytest.approx(19.5, abs=1e-3)


def test_a_noisy_check_before_repairs_of_ten_minutes() -> None:
    """Priors .50 .25 .15 .10 and the check t1, published; minutes by hand from its posteriors.

    Now: 10 (1 + .5 + .25 + .1) = 18.5. Bad, .5: .95 .025 .015 .01, so 10.85. Good, .5: .05 .475
    .285 .19, so 2, 3, 4, 1: 10 (1 + .525 + .24 + .05) = 18.15. In the mean 14.5, and the check.
    """
    costs = _weighed({name: (p, 10.0) for name, p in NOISY.items()}, check_min=3.0, check=T1)
    assert costs.expected_min == pytest.approx(18.5, abs=2e-3)
    (after,) = [each for each in costs.checks if each.check == "row.t1"]
    assert after.expected_min == pytest.approx(14.5 + 3.0, abs=2e-3)
    assert costs.check_first == after


def test_the_same_check_is_not_worth_five_minutes() -> None:
    """It saves four minutes of repairs."""
    costs = _weighed({name: (p, 10.0) for name, p in NOISY.items()}, check_min=5.0, check=T1)
    assert [each.expected_min for each in costs.checks] == pytest.approx([19.5], abs=2e-3)
    assert costs.check_first is None


def _weighed(
    parts: dict[str, tuple[float, float]],
    check_min: float = 1.0,
    check: dict[str, float] | None = None,
) -> Costs:
    """Return the costs of an invented set of parts, (p, minutes) each, that is dead.

    Each part that fails makes the set dead in its own way, which only the check looks at.
    """
    texts = read_texts(SMALL)
    for gone in ("blocks/sender.yaml", "blocks/supply.yaml", "blocks/past.yaml"):
        del texts[gone]
    texts["blocks/row.yaml"] = _block(parts, check_min, check)
    texts["families/beacon.yaml"] = FAMILY
    texts["tables/repairs.yaml"] = REPAIRS
    model = compile_family(load(texts), "beacon")
    case = Case("beacon", full_kit(model))
    case = add_finding(case, read_answer(model, "row.dead", "yes"))
    costs = weigh(model, case, step(model, case))
    assert costs is not None
    return costs


def _block(
    parts: dict[str, tuple[float, float]], check_min: float, check: dict[str, float] | None
) -> str:
    states = ", ".join(["right", *(f"out-{name}" for name in parts)])
    causes = "\n".join(
        f"  part-{name}: {{title: Part {name}, kind: fault, prior: {p * RARE:.3g}, "
        f"source: estimate, makes: {{light: out-{name}}}, act: Replace it.,\n"
        f"    repair: {{minutes: {minutes:g}, source: estimate}}}}"
        for name, (p, minutes) in parts.items()
    )
    always = ", ".join(["right: 0", *(f"out-{name}: 1" for name in parts)])
    bad = {name: (check or dict.fromkeys(parts, 0.5))[name] for name in parts}
    chances = ", ".join(["right: 0.4", *(f"out-{name}: {p}" for name, p in bad.items())])
    return f"""\
title: A row of parts
about: Invented; each part puts the light out in its own way.
unlisted: 0.000001
makes:
  light: {{title: Light, carries: quality, states: [{states}]}}
causes:
{causes}
checks:
  dead:
    {{kind: symptom, title: Dead, asks: Is it dead?, looks-at: light, yes: {{{always}}},
     right: It is not., minutes: 1, source: estimate}}
  t1:
    {{kind: look, title: First check, asks: Is it bad?, looks-at: light, yes: {{{chances}}},
     right: It is good., minutes: {check_min:g}, source: estimate}}
"""


FAMILY = """\
title: Row of parts, an invented set
about: Parts, one of which failed.
source: estimate
recognise: [It has parts.]
channels: hill-farm
rules: hill-farm
blocks: {row: {at: [0, 0]}}
wiring: {}
"""
REPAIRS = """\
prove: {minutes: 0, source: estimate}
hand-over: {minutes: 1000, source: estimate}
getting: {nothing: {title: No part is needed, worth-min: 0, source: estimate}}
kinds:
  fault: {minutes: 1, does-it: 1, getting: nothing, lid: "on", source: estimate}
  adjustment: {minutes: 1, does-it: 1, getting: nothing, lid: "on", source: estimate}
  modification: {minutes: 1, does-it: 1, getting: nothing, lid: "on", source: estimate}
  outside: {minutes: 1, does-it: 1, getting: nothing, lid: "on", source: estimate}
  control: {minutes: 1, does-it: 1, getting: nothing, lid: "on", source: estimate}
  unlisted: {minutes: 1, does-it: 1, getting: nothing, lid: "on", source: estimate}
"""
