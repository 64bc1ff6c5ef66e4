from random import Random

import pytest

from engine.inference.junction import junction_tree
from engine.inference.network import network, root
from engine.inference.propagation import calibrate
from tests.oracles import joint
from tests.random_networks import random_network

SEEDS = range(30)
STUBBORN = (51, 59, 88)  # where the orders that look cheapest end in more work


@pytest.mark.parametrize("seed", SEEDS)
def test_every_variable_has_a_home(seed: int) -> None:
    """Each variable lives in a clique that tells its state entry by entry."""
    net = random_network(seed, 10)
    tree = junction_tree(net)
    assert set(tree.homes) == set(net.nodes)
    for name, home in tree.homes.items():
        assert home.states == len(net.nodes[name].states)
        assert len(home.state_of) == len(tree.cliques[home.clique].weights)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_entry_is_zero_or_idle(seed: int) -> None:
    """An entry stands for something possible: its weight and its posterior are above 0."""
    tree = junction_tree(random_network(seed, 10))
    assert all(weight > 0.0 for clique in tree.cliques for weight in clique.weights)
    assert all(belief > 0.0 for beliefs in calibrate(tree, {}).beliefs for belief in beliefs)


@pytest.mark.parametrize("seed", SEEDS)
def test_parents_stand_behind_their_children(seed: int) -> None:
    """One sweep forward collects: every clique knows its children, and comes after them."""
    cliques = junction_tree(random_network(seed, 12)).cliques
    for number, clique in enumerate(cliques):
        assert all(cliques[child].parent == number > child for child, _ in clique.children)
        assert clique.parent == -1 or number in dict(cliques[clique.parent].children)


@pytest.mark.parametrize("seed", SEEDS)
def test_separators_match_on_both_sides(seed: int) -> None:
    """Both cliques know all entries of the separator between them, and no others."""
    cliques = junction_tree(random_network(seed, 12)).cliques
    for clique in cliques:
        assert set(clique.to_separator) == set(range(clique.separator_size))
        for child, index in clique.children:
            assert set(index) == set(range(cliques[child].separator_size))


@pytest.mark.parametrize("seed", SEEDS)
def test_compiling_again_gives_the_same_tree(seed: int) -> None:
    """The order in which nodes are given changes nothing but the last digits of the weights."""
    net = random_network(seed, 10)
    nodes = list(net.nodes.values())
    one, other = junction_tree(net, 5), junction_tree(network(nodes), 5)
    assert (one.cliques, one.homes) == (other.cliques, other.homes)
    stirred = junction_tree(network(Random(seed).sample(nodes, len(nodes))), 5)
    assert stirred.homes == one.homes
    for mine, its in zip(one.cliques, stirred.cliques, strict=True):
        assert its.weights == pytest.approx(mine.weights, rel=1e-14)
        assert (its.parent, its.to_separator, its.children) == (
            mine.parent,
            mine.to_separator,
            mine.children,
        )


@pytest.mark.parametrize("seed", [*SEEDS, *STUBBORN])
def test_more_tries_never_make_more_work(seed: int) -> None:
    """However many orders are tried, a pass visits at most as much as with plain min-fill."""
    for net in (random_network(seed, 20), random_network(seed, 30, most_parents=2)):
        plain = junction_tree(net).work
        assert max(junction_tree(net, tries).work for tries in (2, 5, 20)) <= plain


@pytest.mark.parametrize("seed", SEEDS)
def test_work_counts_entries_and_those_of_each_child(seed: int) -> None:
    """A pass visits an entry once for its clique and once for each child of it."""
    tree = junction_tree(random_network(seed, 12))
    visited = sum(
        len(clique.weights) + sum(len(index) for _, index in clique.children)
        for clique in tree.cliques
    )
    assert tree.work == visited


def test_unconnected_parts_make_a_forest() -> None:
    """Variables that have nothing to do with each other meet in no clique."""
    lone = [root(f"v{n}", ["no", "yes"], [0.5, 0.5]) for n in range(4)]
    tree = junction_tree(network(lone))
    assert [clique.parent for clique in tree.cliques] == [-1] * 4
    assert tree.size == 8


@pytest.mark.parametrize("seed", SEEDS)
def test_a_clique_is_no_larger_than_the_joint(seed: int) -> None:
    """With zero entries left out, no clique has more entries than there are possible worlds."""
    net = random_network(seed, 8)
    worlds = len(joint(net, {}))
    assert all(len(clique.weights) <= worlds for clique in junction_tree(net).cliques)
