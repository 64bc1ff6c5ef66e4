from itertools import islice, pairwise
from math import log2, prod

import pytest

from engine.errors import EvidenceError
from engine.inference.diagnoses import assignments, states
from engine.inference.junction import junction_tree
from engine.inference.network import gate, network, root
from tests import oracles
from tests.random_networks import random_likelihoods, random_network

SEEDS = range(70)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_best_equal_the_sorted_joint(seed: int) -> None:
    """The k best assignments are the first k of all, sorted by probability."""
    net = random_network(seed, 8)
    found = random_likelihoods(net, seed, 2)
    ranked = sorted((p for _, p in oracles.joint(net, found)), reverse=True)
    best = islice(assignments(junction_tree(net), found), 12)
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
        for one in islice(assignments(tree, found), 12)
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
    assert list(assignments(tree, {"v": [0.0, 0.0]})) == []


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


def test_lopsided_findings_are_ranked_too() -> None:
    """Thousands of findings in one clique, each way alike: no product falls to nothing."""
    cause = root("cause", ["no", "yes"], [0.6, 0.4])
    signs = [gate(f"s{n}", ["no", "yes"], [cause], lambda word: word) for n in range(2200)]
    tree = junction_tree(network([cause, *signs]))
    found = {sign.name: [2.0, 1.0] if n < 1100 else [1.0, 2.0] for n, sign in enumerate(signs)}
    ranked = list(assignments(tree, found))
    assert [states(tree, one, ["cause"]) for one in ranked] == [[0], [1]]
    expected = [log2(0.6) + 1100, log2(0.4) + 1100]
    assert [one.log2_joint for one in ranked] == pytest.approx(expected, rel=1e-12)


def test_no_vector_is_no_evidence() -> None:
    """A likelihood of the wrong length is refused here as it is in a pass."""
    tree = junction_tree(network([root("v", ["no", "yes"], [0.5, 0.5])]))
    with pytest.raises(EvidenceError) as refused:
        list(assignments(tree, {"v": [1.0]}))
    said = "v: found [1], expected 2 likelihoods, each finite and at least 0"
    assert str(refused.value) == said
