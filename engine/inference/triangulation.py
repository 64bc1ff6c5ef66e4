"""Elimination order by min-fill, and the cliques it leaves.

References:
    Kjaerulff, Triangulation of graphs, Aalborg R 90-09 (1990).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from heapq import heapify, heappop, heappush
from itertools import combinations
from math import prod

from engine.inference.network import Network

Graph = dict[str, set[str]]


@dataclass(frozen=True, slots=True)
class Elimination:
    """Variables in the order they are eliminated, each with its neighbours at that moment."""

    order: tuple[str, ...]
    neighbours: dict[str, frozenset[str]]


def moral_graph(network: Network) -> Graph:
    """Return who meets whom in a table: parents and children, and parents of one child."""
    graph: Graph = {name: set() for name in network.nodes}
    for node in network.nodes.values():
        for a, b in combinations((node.name, *node.parents), 2):
            graph[a].add(b)
            graph[b].add(a)
    return graph


def min_fill(graph: Graph, cards: dict[str, int]) -> Elimination:
    """Return an elimination order: always the variable whose removal joins fewest neighbours.

    Ties go to the smaller table, then to the name, so the order is always the same. Counts are
    kept up to date only where an elimination changes them, which keeps the work near-linear for
    graphs of small degree.
    """
    graph = {name: set(neighbours) for name, neighbours in graph.items()}
    fill = {name: _missing(graph, name) for name in graph}
    heap = [(fill[name], _table_size(graph, cards, name), name) for name in graph]
    heapify(heap)
    order: list[str] = []
    left: dict[str, frozenset[str]] = {}
    while heap:
        count, size, name = heappop(heap)
        if name in left or count != fill[name] or size != _table_size(graph, cards, name):
            continue  # an old entry: a newer one is in the heap
        order.append(name)
        left[name] = frozenset(graph[name])
        for changed in sorted(_eliminate(graph, name, fill)):
            heappush(heap, (fill[changed], _table_size(graph, cards, changed), changed))
    return Elimination(tuple(order), left)


def _eliminate(graph: Graph, name: str, fill: dict[str, int]) -> set[str]:
    """Join the neighbours of `name`, remove it, and return the variables whose cost changed."""
    neighbours = graph.pop(name)
    for neighbour in neighbours:
        graph[neighbour].discard(name)
    changed = set(neighbours)
    for a, b in combinations(sorted(neighbours), 2):
        if b not in graph[a]:
            graph[a].add(b)
            graph[b].add(a)
            for witness in graph[a] & graph[b]:
                changed.add(witness)
    for variable in changed:
        fill[variable] = _missing(graph, variable)
    return changed


def _missing(graph: Graph, name: str) -> int:
    """Return how many pairs of neighbours of `name` are not joined."""
    neighbours = graph[name]
    present = sum(len(graph[neighbour] & neighbours) for neighbour in neighbours)
    return (len(neighbours) * (len(neighbours) - 1) - present) // 2


def _table_size(graph: Graph, cards: dict[str, int], name: str) -> int:
    return cards[name] * prod(_cards(graph[name], cards))


def _cards(names: Iterable[str], cards: dict[str, int]) -> list[int]:
    return [cards[name] for name in names]
