"""Slow, obvious answers to hold the engine against: everything by enumeration.

Nothing here shares code with what it checks, save the networks themselves.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from itertools import combinations
from math import fsum, log2

from engine.diagnosis.model import SetModel
from engine.inference.network import Network, Node
from engine.inference.noisy_or import NoisyTree
from engine.inference.tree import JunctionTree

Row = dict[str, int]  # variable -> state, by number
Joint = list[tuple[Row, float]]  # every possible assignment, and P(assignment, evidence)


def joint(net: Network, likelihoods: Mapping[str, Sequence[float]]) -> Joint:
    """Return P(assignment, evidence) of every assignment for which it is not 0."""
    rows: Joint = [({}, 1.0)]
    for node in net.nodes.values():
        weights = likelihoods.get(node.name, [1.0] * len(node.states))
        rows = [
            ({**row, node.name: state}, p * chance_of(node, row, state) * weight)
            for row, p in rows
            for state, weight in enumerate(weights)
            if chance_of(node, row, state) * weight > 0.0
        ]
    return rows


def chance_of(node: Node, row: Row, state: int) -> float:
    """Return P(state | the states that `row` gives its parents)."""
    return node.table.get((*(row[parent] for parent in node.parents), state), 0.0)


def p_evidence(rows: Joint) -> float:
    """Return the probability of the evidence: the sum over all assignments."""
    return fsum(p for _, p in rows)


def posterior(rows: Joint, variable: str, states: int) -> list[float]:
    """Return P(state | evidence)."""
    total = p_evidence(rows)
    return [fsum(p for row, p in rows if row[variable] == s) / total for s in range(states)]


def entropy_bits(weights: Iterable[float]) -> float:
    """Return the entropy of a distribution, in bits; the weights need not sum to 1."""
    some = [w for w in weights if w > 0.0]
    total = fsum(some)
    return -fsum(w / total * log2(w / total) for w in some)


def gain_bits(
    rows: Joint, about: Sequence[str], variable: str, shows: Sequence[Sequence[float]]
) -> float:
    """Return the mutual information of an outcome and all variables in `about` together.

    `shows[state of variable][outcome]` is P(outcome | state).
    """
    both: dict[tuple[tuple[int, ...], int], list[float]] = defaultdict(list)
    for row, p in rows:
        causes = tuple(row[name] for name in about)
        for outcome, q in enumerate(shows[row[variable]]):
            both[causes, outcome].append(p * q)
    total = p_evidence(rows)
    together = {key: fsum(parts) / total for key, parts in both.items()}
    of_causes: dict[tuple[int, ...], float] = defaultdict(float)
    of_outcome: dict[int, float] = defaultdict(float)
    for (causes, outcome), p in together.items():
        of_causes[causes] += p
        of_outcome[outcome] += p
    return fsum(
        p * log2(p / (of_causes[causes] * of_outcome[outcome]))
        for (causes, outcome), p in together.items()
        if p > 0.0
    )


def causes_of(net: Network) -> set[str]:
    """Return the variables that their parents do not determine: these determine all others."""
    return {
        name
        for name, node in net.nodes.items()
        if not node.parents or {*node.table.values()} != {1}
    }


def minimal_cut_sets(
    net: Network, top: str, states: set[str], largest: int
) -> set[frozenset[tuple[str, str]]]:
    """Return them by trying every set of events, the smaller ones first."""
    node, causes = net.nodes[top], causes_of(net)
    wanted = {node.states.index(state) for state in states}
    events = [
        (name, state) for name in sorted(causes) for state in range(1, len(net.nodes[name].states))
    ]
    found: set[frozenset[tuple[str, str]]] = set()
    for size in range(largest + 1):
        for some in combinations(events, size):
            tried = frozenset((name, net.nodes[name].states[s]) for name, s in some)
            is_new = len(dict(some)) == size and not any(smaller <= tried for smaller in found)
            if is_new and follow(net, causes, dict(some))[top] in wanted:
                found.add(tried)
    return found


def follow(net: Network, causes: set[str], events: Mapping[str, int]) -> Row:
    """Return the state of everything when `events` happen and every other cause is in state 0."""
    row: Row = {}
    for name, node in net.nodes.items():
        if name in causes:
            row[name] = events.get(name, 0)
        else:
            states = range(len(node.states))
            row[name] = next(state for state in states if chance_of(node, row, state))
    return row


def tables(model: SetModel) -> JunctionTree:
    """Return the tables of a set, without the nodes outside of them."""
    assert isinstance(model.tree, NoisyTree)
    return model.tree.inner
