"""A Bayesian network over discrete variables: a directed acyclic graph, or an error."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from math import fsum, isclose

import networkx as nx

from engine.errors import NetworkError

Assignment = tuple[int, ...]
ROUNDING = 1e-9  # rows are sums of rounded numbers


@dataclass(frozen=True, slots=True)
class Node:
    """A variable, its parents, and its conditional probability table.

    `table` maps (parent states ..., own state), as indices, to a probability; zero entries are
    left out, so that a gate costs one entry for each combination of its inputs.
    """

    name: str
    states: tuple[str, ...]
    parents: tuple[str, ...]
    table: dict[Assignment, float]


@dataclass(frozen=True, slots=True)
class Network:
    """Nodes by name, parents before children."""

    nodes: dict[str, Node]

    def cards(self) -> dict[str, int]:
        """Return the number of states of every variable."""
        return {name: len(node.states) for name, node in self.nodes.items()}


def root(name: str, states: Sequence[str], prior: Sequence[float]) -> Node:
    """Return a node without parents."""
    _check_length(f"{name}: found a prior of", prior, states)
    table: dict[Assignment, float] = {(index,): p for index, p in enumerate(prior) if p}
    return Node(name, tuple(states), (), table)


def chance(
    name: str, states: Sequence[str], parents: Sequence[Node], rows: Sequence[Sequence[float]]
) -> Node:
    """Return a node whose distribution depends on its parents.

    `rows` has one distribution for each combination of parent states, the last parent running
    fastest.
    """
    combinations = list(product(*(range(len(parent.states)) for parent in parents)))
    if len(rows) != len(combinations):
        raise NetworkError(f"{name}: found {len(rows)} rows, expected {len(combinations)}")
    for combination, row in zip(combinations, rows, strict=True):
        _check_length(f"{name}{combination}: found a row of", row, states)
    table = {
        (*combination, index): p
        for combination, row in zip(combinations, rows, strict=True)
        for index, p in enumerate(row)
        if p
    }
    return Node(name, tuple(states), tuple(parent.name for parent in parents), table)


def gate(
    name: str, states: Sequence[str], parents: Sequence[Node], rule: Callable[..., str]
) -> Node:
    """Return a node that its parents determine: `rule(*parent states)` names its state."""
    index = {state: number for number, state in enumerate(states)}
    table = {}
    for combination in product(*(range(len(parent.states)) for parent in parents)):
        words = [parent.states[number] for parent, number in zip(parents, combination, strict=True)]
        lands = rule(*words)
        if lands not in index:
            known = ", ".join(states)
            raise NetworkError(f"{name}{combination}: found '{lands}', expected one of {known}")
        table[(*combination, index[lands])] = 1.0
    return Node(name, tuple(states), tuple(parent.name for parent in parents), table)


def network(nodes: Iterable[Node]) -> Network:
    """Return the network of `nodes`, parents first.

    Raises:
        NetworkError: two nodes of one name, a state or parent named twice, an unknown parent, a
            cycle, an entry for states that are not there or that is no probability, or a row that
            does not sum to 1.
    """
    by_name: dict[str, Node] = {}
    for node in nodes:
        if node.name in by_name:
            raise NetworkError(f"{node.name}: found twice, expected once")
        by_name[node.name] = node
        _check_once(node, "state", node.states)
        _check_once(node, "parent", node.parents)
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(by_name)
    for node in by_name.values():
        for parent in node.parents:
            if parent not in by_name:
                raise NetworkError(f"{node.name}: parent '{parent}' is not in the network")
            graph.add_edge(parent, node.name)
        _check_rows(node, by_name)
    if not nx.is_directed_acyclic_graph(graph):
        cycle = " -> ".join(edge[0] for edge in nx.find_cycle(graph))
        raise NetworkError(f"a cycle: {cycle}")
    return Network({name: by_name[name] for name in nx.topological_sort(graph)})


def _check_length(found: str, numbers: Sequence[float], states: Sequence[str]) -> None:
    if len(numbers) != len(states):
        raise NetworkError(f"{found} {len(numbers)} numbers, expected {len(states)}")


def _check_once(node: Node, kind: str, names: Sequence[str]) -> None:
    for name in names:
        if names.count(name) > 1:
            raise NetworkError(f"{node.name}: {kind} '{name}' found twice, expected once")


def _check_rows(node: Node, by_name: dict[str, Node]) -> None:
    """Every combination of parent states has a distribution, and nothing else is in the table."""
    sizes = [len(by_name[parent].states) for parent in node.parents]
    _check_keys(node, (*sizes, len(node.states)))
    sums: dict[Assignment, list[float]] = {}
    for assignment, p in node.table.items():
        if not 0.0 <= p <= 1.0 + ROUNDING:
            raise NetworkError(f"{node.name}{assignment}: found {p:g}, expected 0 to 1")
        sums.setdefault(assignment[:-1], []).append(p)
    for combination in product(*map(range, sizes)):
        total = fsum(sums.get(combination, ()))
        if not isclose(total, 1.0, abs_tol=ROUNDING):
            raise NetworkError(f"{node.name}{combination}: row sums to {total:g}, expected 1")


def _check_keys(node: Node, sizes: tuple[int, ...]) -> None:
    """Every entry is for a state of each parent and one of the node's own, by number."""
    for assignment in node.table:
        fits = len(assignment) == len(sizes)
        if not fits or not all(0 <= n < size for n, size in zip(assignment, sizes, strict=True)):
            limits = ", ".join(f"0 to {size - 1}" for size in sizes)
            expected = f"{len(sizes)} state numbers ({limits})"
            raise NetworkError(f"{node.name}: found an entry for {assignment}, expected {expected}")
