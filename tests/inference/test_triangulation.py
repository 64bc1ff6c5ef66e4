from itertools import combinations
from math import inf
from random import Random

import networkx as nx
import pytest

from engine.inference.network import Network, gate, network, root
from engine.inference.triangulation import (
    RECIPES,
    Elimination,
    Graph,
    eliminations,
    greedy_elimination,
    moral_graph,
)
from tests.random_networks import random_network
from tests.textbook.chest_clinic import CLINIC

SEEDS = range(20)


def plain(net: Network, tries: int = 1) -> Elimination:
    """Return the cheapest of a few eliminations."""
    return eliminations(moral_graph(net), net.cards(), tries, 1)[0]


def cliques(elimination: Elimination) -> list[set[str]]:
    """Return what meets in a table when each variable goes."""
    return [{name, *left} for name, left in elimination.neighbours.items()]


def test_the_moral_graph_marries_parents() -> None:
    """The chest clinic gets t-l and e-b beside its eight arcs (Lauritzen & Spiegelhalter 1988)."""
    graph = moral_graph(CLINIC)
    edges = {"".join(sorted((a, b))) for a, others in graph.items() for b in others}
    assert edges == {"at", "ls", "bs", "et", "el", "ex", "de", "bd", "lt", "be"}


@pytest.mark.parametrize("seed", SEEDS)
def test_every_table_fits_in_a_clique(seed: int) -> None:
    """A node and its parents meet in at least one clique."""
    net = random_network(seed, 14)
    made = cliques(plain(net))
    families = [{node.name, *node.parents} for node in net.nodes.values()]
    assert all(any(family <= clique for clique in made) for family in families)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_left_is_chordal(seed: int) -> None:
    """With the cliques filled in, no circle of four or more is without a chord."""
    net = random_network(seed, 14)
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from(net.nodes)
    for name, left in plain(net).neighbours.items():
        graph.add_edges_from((name, other) for other in left)
    assert nx.is_chordal(graph)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_variable_goes_once(seed: int) -> None:
    """The order holds every variable, and nobody meets one that is gone."""
    net = random_network(seed, 14)
    elimination = plain(net)
    assert sorted(elimination.order) == sorted(net.nodes)
    for number, name in enumerate(elimination.order):
        assert elimination.neighbours[name] <= {*elimination.order[number + 1 :]}


@pytest.mark.parametrize("seed", SEEDS)
def test_entries_count_the_dense_tables(seed: int) -> None:
    """The size is that of one table for each variable, zeros and all."""
    net = random_network(seed, 14)
    cards, counted = net.cards(), 0
    for clique in cliques(plain(net)):
        size = 1
        for name in clique:
            size *= cards[name]
        counted += size
    assert plain(net).entries == counted


@pytest.mark.parametrize("seed", SEEDS)
def test_the_order_of_the_graph_does_not_matter(seed: int) -> None:
    """The same graph, its variables and neighbours shuffled, is eliminated the same way."""
    net = random_network(seed, 14)
    graph = moral_graph(net)
    again = eliminations(shuffled(graph, seed), net.cards(), 9, 3)
    assert again == eliminations(graph, net.cards(), 9, 3)


def shuffled(graph: Graph, seed: int) -> Graph:
    """Return the same graph, put together in another order."""
    dice = Random(seed)
    names = dice.sample(sorted(graph), len(graph))
    return {name: set(dice.sample(sorted(graph[name]), len(graph[name]))) for name in names}


@pytest.mark.parametrize("seed", SEEDS)
def test_more_tries_never_cost_more(seed: int) -> None:
    """The cheapest of many orders is at most as large as that of fewer."""
    net = random_network(seed, 20)
    sizes = [plain(net, tries).entries for tries in (1, 2, 7, 30)]
    assert sizes == sorted(sizes, reverse=True)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_first_order_is_min_fill(seed: int) -> None:
    """Each variable that goes joins no more of its neighbours anew than any other would."""
    net = random_network(seed, 20)
    graph = {name: set(others) for name, others in moral_graph(net).items()}
    for name in plain(net).order:
        assert fill(graph, name) == min(fill(graph, other) for other in graph)
        neighbours = graph.pop(name)
        for other in neighbours:
            graph[other] |= neighbours - {other}
            graph[other].discard(name)


def fill(graph: Graph, name: str) -> int:
    """Return how many pairs of neighbours are not joined."""
    return sum(b not in graph[a] for a, b in combinations(graph[name], 2))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_cheapest_of_all_tries_is_kept(seed: int) -> None:
    """Giving up early on an order that gets too large loses no better one."""
    net = random_network(seed, 20)
    graph, cards = moral_graph(net), net.cards()
    every = [
        greedy_elimination(graph, cards, RECIPES[number % len(RECIPES)], number, inf)
        for number in range(20)
    ]
    assert plain(net, 20).entries == min(one.entries for one in every if one)


@pytest.mark.parametrize("keep", [1, 2, 4])
def test_kept_orders_come_cheapest_first(keep: int) -> None:
    """Of many tries the cheapest are kept, in order, and no more than were asked for."""
    net = random_network(3, 20)
    kept = eliminations(moral_graph(net), net.cards(), 30, keep)
    sizes = [elimination.entries for elimination in kept]
    assert len(kept) == keep
    assert sizes == sorted(sizes)


@pytest.mark.parametrize("tries", [1, 7])
def test_a_hub_can_have_a_thousand_neighbours(tries: int) -> None:
    """The hub goes last but one: the table it would make at first is beyond any float."""
    hub = root("hub", ["no", "yes"], [0.5, 0.5])
    spokes = [gate(f"s{n}", ["no", "yes"], [hub], lambda word: word) for n in range(1100)]
    assert plain(network([hub, *spokes]), tries).entries == 1100 * 4 + 2


def test_a_chain_costs_in_proportion_to_its_length() -> None:
    """Twice the stages cost twice the entries: nothing but neighbours ever meet."""
    short, long = plain(chain(50)).entries, plain(chain(100)).entries
    assert long - short == plain(chain(150)).entries - long
    assert max(map(len, cliques(plain(chain(100))))) == 3


def chain(stages: int) -> Network:
    """Return stages one after another, each with a fault of its own."""
    nodes = [root("s0", ["right", "absent"], [0.5, 0.5])]
    for number in range(1, stages + 1):
        fault = root(f"f{number}", ["fine", "bad"], [0.9, 0.1])
        stage = gate(
            f"s{number}",
            ["right", "absent"],
            [nodes[-1], fault],
            lambda before, fault: "right" if (before, fault) == ("right", "fine") else "absent",
        )
        nodes += [fault, stage]
    return network(nodes)
