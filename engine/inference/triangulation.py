"""Elimination order by min-fill and its kin, and the cliques it leaves.

References:
    Kjaerulff, Triangulation of graphs, Aalborg R 90-09 (1990).
"""

from dataclasses import dataclass
from heapq import heapify, heappop, heappush
from itertools import combinations
from math import inf, prod
from zlib import crc32

from engine.inference.network import Network

Graph = dict[str, set[str]]


@dataclass(frozen=True, slots=True)
class Elimination:
    """Variables in the order they are eliminated, each with its neighbours at that moment.

    `entries` counts the dense tables this makes, one for each variable.
    """

    order: tuple[str, ...]
    neighbours: dict[str, frozenset[str]]
    entries: int


def moral_graph(network: Network) -> Graph:
    """Return who meets whom in a table: parents and children, and parents of one child."""
    graph: Graph = {name: set() for name in network.nodes}
    for node in network.nodes.values():
        for a, b in combinations((node.name, *node.parents), 2):
            graph[a].add(b)
            graph[b].add(a)
    return graph


def eliminations(graph: Graph, cards: dict[str, int], tries: int, keep: int) -> list[Elimination]:
    """Return the `keep` cheapest of `tries` greedy eliminations, cheapest first.

    The first is plain min-fill. A greedy choice early on can cost a factor of ten at the end, so
    the others weigh fill and table size differently and shake the ties, always in the same way.
    """
    found: list[Elimination] = []
    for number in range(tries):
        recipe = RECIPES[number % len(RECIPES)]
        limit = found[-1].entries if len(found) == keep else inf
        one = greedy_elimination(graph, cards, recipe, number, limit)
        if one is not None:
            found = sorted([*found, one], key=lambda elimination: elimination.entries)[:keep]
    return found


@dataclass(frozen=True, slots=True)
class Recipe:
    """Cost of eliminating a variable: fill ** `fill` x size ** `size`, shaken by up to `noise`."""

    fill: float
    size: float
    noise: float


RECIPES = (
    Recipe(1.0, 0.0, 0.0),
    Recipe(1.0, 0.0, 0.5),
    Recipe(0.5, 0.0, 0.2),
    Recipe(1.0, 0.1, 0.5),
    Recipe(0.5, 0.1, 0.2),
    Recipe(0.5, 0.0, 0.5),
    Recipe(1.0, 0.0, 0.2),
)


def greedy_elimination(
    graph: Graph, cards: dict[str, int], recipe: Recipe, number: int, limit: float
) -> Elimination | None:
    """Return an elimination order: always the variable that is cheapest by the recipe.

    Ties go to the smaller table, then to the name, so the order is always the same. Costs are
    kept up to date only where an elimination changes them, which keeps the work near-linear for
    graphs of small degree. None when the tables get larger than `limit` entries.
    """
    graph = {name: set(neighbours) for name, neighbours in graph.items()}
    shake = {
        name: 1.0 + recipe.noise * crc32(f"{number}:{name}".encode()) / 2**32 for name in graph
    }
    cost = {name: _cost(graph, cards, name, recipe, shake) for name in graph}
    heap = [(cost[name], name) for name in graph]
    heapify(heap)
    order: list[str] = []
    left: dict[str, frozenset[str]] = {}
    entries = 0
    while heap:
        paid, name = heappop(heap)
        if name in left or paid != cost[name]:
            continue  # an old entry: a newer one is in the heap
        order.append(name)
        left[name] = frozenset(graph[name])
        entries += _table_size(graph, cards, name)
        if entries >= limit:
            return None
        for changed in _eliminate(graph, name):
            cost[changed] = _cost(graph, cards, changed, recipe, shake)
            heappush(heap, (cost[changed], changed))
    return Elimination(tuple(order), left, entries)


def _cost(
    graph: Graph, cards: dict[str, int], name: str, recipe: Recipe, shake: dict[str, float]
) -> tuple[float, int]:
    size = _table_size(graph, cards, name)
    # A variable with a thousand neighbours has a dense table beyond what a float can count.
    weight = min(size, 2**1000) ** recipe.size
    return _missing(graph, name) ** recipe.fill * weight * shake[name], size


def _eliminate(graph: Graph, name: str) -> list[str]:
    """Join the neighbours of `name`, remove it, and return the variables whose cost changed."""
    neighbours = graph.pop(name)
    for neighbour in neighbours:
        graph[neighbour].discard(name)
    changed = set(neighbours)
    for a, b in combinations(sorted(neighbours), 2):
        if b not in graph[a]:
            graph[a].add(b)
            graph[b].add(a)
            changed |= graph[a] & graph[b]
    return sorted(changed)


def _missing(graph: Graph, name: str) -> int:
    """Return how many pairs of neighbours of `name` are not joined."""
    neighbours = graph[name]
    present = sum(len(graph[neighbour] & neighbours) for neighbour in neighbours)
    return (len(neighbours) * (len(neighbours) - 1) - present) // 2


def _table_size(graph: Graph, cards: dict[str, int], name: str) -> int:
    return cards[name] * prod(cards[neighbour] for neighbour in graph[name])
