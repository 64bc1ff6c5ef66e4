"""Other chances for some variables of a compiled tree."""

from itertools import product
from random import Random

import pytest

from engine.inference.junction import junction_tree
from engine.inference.network import Node, chance, gate, network, root
from engine.inference.propagation import calibrate
from engine.inference.reweighing import odds_factor, restated, reweighed

STATES = ("right", "wrong", "worse")
TARGETS = {"alone": 0.3, "under": 0.05, "both": 0.6}


def built(alone: float, under: list[float], both: list[float]) -> list[Node]:
    """Return two roots, three variables with these chances in each row, and what they make."""
    first = root("first", ("no", "yes"), [0.9, 0.1])
    second = root("second", ("no", "a", "b"), [0.7, 0.2, 0.1])

    def row(p: float) -> list[float]:
        return [1.0 - p, 0.75 * p, 0.25 * p]

    one = root("alone", STATES, row(alone))
    two = chance("under", STATES, [first], [row(p) for p in under])
    three = chance("both", STATES, [first, second], [row(p) for p in both])
    worst = gate("out", STATES, [one, two, three], lambda *s: max(s, key=STATES.index))
    return [first, second, one, two, three, worst]


def tilted(shares: list[float], chances: list[float], target: float) -> list[float]:
    """Return the new chances of the rows, by another way: Newton's method on the factor."""
    factor = 1.0
    for _ in range(80):
        sums = [1.0 - q + factor * q for q in chances]
        parts = list(zip(shares, chances, sums, strict=True))
        off = sum(p * factor * q / s for p, q, s in parts) - target
        slope = sum(p * q * (1.0 - q) / s**2 for p, q, s in parts)
        factor = max(factor - off / slope, factor / 10.0)
    return [factor * q / (1.0 - q + factor * q) for q in chances]


def test_the_tree_is_that_of_a_network_built_with_the_new_chances() -> None:
    """Posteriors and P(evidence) agree for evidence by chance, under no, one and two parents."""
    under, both = [0.02, 0.4], [0.1, 0.2, 0.3, 0.5, 0.6, 0.9]
    tree = junction_tree(network(built(0.1, under, both)))
    new = reweighed(tree, TARGETS, ["first", "second"]).tree
    pairs = [p * q for p, q in product([0.9, 0.1], [0.7, 0.2, 0.1])]
    rows = tilted([0.9, 0.1], under, 0.05), tilted(pairs, both, 0.6)
    anew = junction_tree(network(built(0.3, *rows)))
    dice = Random(7)
    for _ in range(10):
        held = {"out": [dice.random() for _ in STATES], "first": [dice.random(), dice.random()]}
        ours, theirs = calibrate(new, held), calibrate(anew, held)
        assert ours.log2_evidence == pytest.approx(theirs.log2_evidence, abs=1e-12)
        for name in anew.homes:
            assert ours.posterior(name) == pytest.approx(theirs.posterior(name), abs=1e-12)


def test_the_chance_of_all_first_states_grows_by_the_factor_told() -> None:
    """P(every variable in its first state) before, times the factor, is that after."""
    tree = junction_tree(network(built(0.1, [0.02, 0.4], [0.1, 0.2, 0.3, 0.5, 0.6, 0.9])))
    new = reweighed(tree, TARGETS, ["first", "second"])
    fine = {name: [1.0, *[0.0] * (home.states - 1)] for name, home in tree.homes.items()}
    before, after = (2.0 ** calibrate(each, fine).log2_evidence for each in (tree, new.tree))
    assert after == pytest.approx(before * new.fine_factor, rel=1e-12)


def test_a_chance_that_stays_leaves_the_tables_alone() -> None:
    """What is asked for is there already: the tables are the same ones."""
    tree = junction_tree(network(built(0.1, [0.02, 0.4], [0.1, 0.2, 0.3, 0.5, 0.6, 0.9])))
    new = reweighed(tree, {"alone": 1.0 - calibrate(tree, {}).posterior("alone")[0]}, [])
    assert [each.weights for each in new.tree.cliques] == [each.weights for each in tree.cliques]
    assert new.fine_factor == 1.0


def test_the_factor_brings_the_mean_to_the_target() -> None:
    """Rows that are certain cannot move; the others make up for them."""
    shares, chances = [0.5, 0.3, 0.2], [0.01, 0.5, 1.0]
    factor = odds_factor(shares, chances, 0.4)
    mean = sum(p * q * factor / (1 - q + factor * q) for p, q in zip(shares, chances, strict=True))
    assert mean == pytest.approx(0.4, abs=1e-14)


def test_a_root_takes_other_chances() -> None:
    """Everything is as in a network built with them, and so is P(all in their first states)."""
    rows = [0.02, 0.4], [0.1, 0.2, 0.3, 0.5, 0.6, 0.9]
    nodes = built(0.1, *rows)
    new = restated(junction_tree(network(nodes)), "second", [0.5, 0.2, 0.3])
    nodes[1] = root("second", ("no", "a", "b"), [0.5, 0.2, 0.3])
    anew = junction_tree(network(nodes))
    dice = Random(11)
    for _ in range(10):
        held = {"out": [dice.random() for _ in STATES], "both": [dice.random() for _ in STATES]}
        ours, theirs = calibrate(new.tree, held), calibrate(anew, held)
        assert ours.log2_evidence == pytest.approx(theirs.log2_evidence, abs=1e-12)
        for name in anew.homes:
            assert ours.posterior(name) == pytest.approx(theirs.posterior(name), abs=1e-12)
    assert new.fine_factor == pytest.approx(0.5 / 0.7, rel=1e-12)
