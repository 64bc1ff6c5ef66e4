"""The most probable joint explanations: the k best assignments of every variable.

A pass up with max in place of sum tells, for every clique and separator, how good the best
completion below is. With that as an exact heuristic a best-first search from the root meets the
assignments in falling order and never looks at a worse one first.

References:
    Nilsson, Statistics and Computing 8 (1998) 159-173.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from math import inf

from engine.inference.likelihoods import Likelihoods, check_likelihoods
from engine.inference.logarithms import log_entries
from engine.inference.tree import JunctionTree


@dataclass(frozen=True, slots=True)
class Assignment:
    """A state for every variable, and log2 of its joint probability with the evidence."""

    entries: tuple[int, ...]  # the entry chosen in each clique, roots first
    log2_joint: float


def assignments(tree: JunctionTree, likelihoods: Likelihoods) -> Iterator[Assignment]:
    """Yield assignments in falling order of probability."""
    groups = _ranked_entries(tree, likelihoods)
    order = range(len(tree.cliques) - 1, -1, -1)
    start = _start(tree, groups)
    if start == -inf:
        return
    # An item: minus its score, a tie breaker, the cliques decided so far, the rank at the next.
    heap: list[tuple[float, int, tuple[int, ...], int]] = [(-start, 0, (), 0)]
    made = 1
    while heap:
        minus, _, chosen, rank = heappop(heap)
        path = list(chosen)
        while len(path) < len(order):
            ranked = groups[order[len(path)]][_separator(tree, order[len(path)], path)]
            if rank + 1 < len(ranked):
                loss = ranked[rank][0] - ranked[rank + 1][0]
                heappush(heap, (minus + loss, made, tuple(path), rank + 1))
                made += 1
            path.append(ranked[rank][1])
            rank = 0
        yield Assignment(tuple(path), -minus)


def states(tree: JunctionTree, assignment: Assignment, variables: Sequence[str]) -> list[int]:
    """Return the state of each of `variables` in an assignment."""
    last = len(tree.cliques) - 1
    homes = [tree.homes[variable] for variable in variables]
    return [home.state_of[assignment.entries[last - home.clique]] for home in homes]


def _separator(tree: JunctionTree, clique: int, path: Sequence[int]) -> int:
    """Return the separator entry of `clique` under the choice made in its parent."""
    parent = tree.cliques[clique].parent
    if parent < 0:
        return 0
    chosen = path[len(tree.cliques) - 1 - parent]
    for child, index in tree.cliques[parent].children:
        if child == clique:
            return index[chosen]
    raise AssertionError(f"clique {clique} is no child of {parent}")


Ranked = list[tuple[float, int]]


def _ranked_entries(tree: JunctionTree, likelihoods: Likelihoods) -> list[list[Ranked]]:
    """Return for each clique and separator entry its entries, (log2 of the best, entry), ranked."""
    check_likelihoods(likelihoods, tree.states)
    entries = log_entries(tree, likelihoods)
    groups: list[list[Ranked]] = []
    for number, clique in enumerate(tree.cliques):
        logs = entries[number]
        for child, index in clique.children:
            best = [ranked[0][0] if ranked else -inf for ranked in groups[child]]
            logs = [entry + best[i] for entry, i in zip(logs, index, strict=True)]
        ranked: list[Ranked] = [[] for _ in range(clique.separator_size)]
        for entry, (log, i) in enumerate(zip(logs, clique.to_separator, strict=True)):
            if log > -inf:
                ranked[i].append((log, entry))
        groups.append([sorted(group, key=lambda item: (-item[0], item[1])) for group in ranked])
    return groups


def _start(tree: JunctionTree, groups: list[list[Ranked]]) -> float:
    """Return log2 of the best joint probability: the sum over the roots of the forest."""
    roots = [n for n, clique in enumerate(tree.cliques) if clique.parent < 0]
    return sum(groups[n][0][0][0] if groups[n][0] else -inf for n in roots)
