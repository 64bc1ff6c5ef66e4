from itertools import islice, pairwise
from math import log2, prod

import pytest

from engine.inference.diagnoses import assignments, best_assignments, states
from engine.inference.junction import junction_tree
from engine.inference.network import network, root
from tests import oracles
from tests.random_networks import random_likelihoods, random_network

SEEDS = range(70)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_best_equal_the_sorted_joint(seed: int) -> None:
    """The k best assignments are the first k of all, sorted by probability."""
    net = random_network(seed, 8)
    found = random_likelihoods(net, seed, 2)
    ranked = sorted((p for _, p in oracles.joint(net, found)), reverse=True)
    best = best_assignments(junction_tree(net), found, 12)
    assert [2.0**one.log2_joint for one in best] == pytest.approx(ranked[:12], rel=1e-12)


@pytest.mark.parametrize("seed", SEEDS)
def test_each_is_as_probable_as_it_says(seed: int) -> None:
    """Read back as states, an assignment has the joint probability it is ranked by."""
    net = random_network(seed, 8)
    found = random_likelihoods(net, seed, 2)
    tree, names = junction_tree(net), list(net.nodes)
    table = {tuple(row.values()): p for row, p in oracles.joint(net, found)}
    read = [
        (tuple(states(tree, one, names)), one.log2_joint)
        for one in best_assignments(tree, found, 12)
    ]
    assert len({words for words, _ in read}) == len(read)
    for words, log2_joint in read:
        assert 2.0**log2_joint == pytest.approx(table[words], rel=1e-12)


@pytest.mark.parametrize("seed", range(30))
def test_all_are_found_and_no_more(seed: int) -> None:
    """Asked for without end, every possible assignment comes, once, the best ones first."""
    net = random_network(seed, 6)
    found = random_likelihoods(net, seed, 2)
    every = list(assignments(junction_tree(net), found))
    assert len({one.entries for one in every}) == len(every) == len(oracles.joint(net, found))
    logs = [one.log2_joint for one in every]
    # Sums of logs taken in another order differ in the last digits.
    assert all(later <= before + 1e-12 for before, later in pairwise(logs))


def test_what_is_impossible_has_no_explanation() -> None:
    """No assignment fits evidence that cannot be."""
    tree = junction_tree(network([root("v", ["no", "yes"], [0.5, 0.5])]))
    assert best_assignments(tree, {"v": [0.0, 0.0]}, 3) == []


def test_the_first_of_astronomically_many_come_at_once() -> None:
    """Of 2 ** 300 assignments the best is all `no`; next come single `yes`, the likeliest first."""
    chances = [0.001 + n * 1e-5 for n in range(300)]
    lone = [root(f"v{n}", ["no", "yes"], [1.0 - p, p]) for n, p in enumerate(chances)]
    tree = junction_tree(network(lone))
    names = [node.name for node in lone]
    first, *singles = islice(assignments(tree, {}), 4)
    assert states(tree, first, names) == [0] * 300
    assert first.log2_joint == pytest.approx(log2(prod(1.0 - p for p in chances)), rel=1e-12)
    assert [states(tree, one, names).index(1) for one in singles] == [299, 298, 297]
    assert [sum(states(tree, one, names)) for one in singles] == [1, 1, 1]
