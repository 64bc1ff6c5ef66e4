"""One pass up and one down a compiled tree: every posterior, and P(evidence).

Plain lists of numbers and nothing to import, so that a browser loads it in no time.

References:
    Jensen, Lauritzen & Olesen, Computational Statistics Quarterly 4 (1990) 269-282.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf, log2


@dataclass(frozen=True, slots=True)
class Clique:
    """A table over some variables, as the flat list of its non-zero entries.

    `to_separator[i]` is the separator entry that entry i belongs to; `children` holds for each
    child its number and, for each entry here, the entry of the child's separator.
    """

    weights: tuple[float, ...]
    parent: int  # -1 at a root of the forest; its separator is empty, with the one entry ()
    separator_size: int
    to_separator: tuple[int, ...]
    children: tuple[tuple[int, tuple[int, ...]], ...]


@dataclass(frozen=True, slots=True)
class Home:
    """Where a variable lives: a clique, and its state in each entry of it."""

    clique: int
    states: int
    state_of: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class JunctionTree:
    """Cliques, children before parents, and the home of every variable."""

    cliques: tuple[Clique, ...]
    homes: dict[str, Home]


Likelihoods = Mapping[str, Sequence[float]]


@dataclass(frozen=True, slots=True)
class Calibration:
    """A tree in which every clique holds its joint posterior; dimensionless.

    `log2_evidence` is log2 P(evidence), -inf when the evidence is impossible; the beliefs are
    then empty.
    """

    tree: JunctionTree
    beliefs: tuple[Sequence[float], ...]
    separators: tuple[list[float], ...]  # marginal of each clique on its separator
    log2_evidence: float

    @property
    def is_possible(self) -> bool:
        """Whether the evidence has a probability above zero."""
        return self.log2_evidence > -inf

    def posterior(self, variable: str) -> list[float]:
        """Return P(state | evidence) of `variable`, shape (states,), sum 1."""
        home = self.tree.homes[variable]
        marginal = [0.0] * home.states
        for belief, state in zip(self.beliefs[home.clique], home.state_of, strict=True):
            marginal[state] += belief
        return marginal

    def entropy_bits(self) -> float:
        """Return the entropy of all variables together, in bits.

        The joint is the product of the cliques over that of the separators, so its entropy is
        the sum over cliques less the sum over separators.
        """
        return sum(map(_entropy, self.beliefs)) - sum(map(_entropy, self.separators))


def calibrate(tree: JunctionTree, likelihoods: Likelihoods) -> Calibration:
    """Return the posterior of every clique, given a likelihood vector for some variables.

    Args:
        tree: the compiled network.
        likelihoods: P(finding | state) for each state of a variable, at least 0; findings on one
            variable are multiplied beforehand.
    """
    values, messages, scales, exponent = _upwards(tree, likelihoods)
    if exponent == -inf:
        return Calibration(tree, (), (), -inf)
    beliefs, separators = _downwards(tree, values, messages, scales)
    return Calibration(tree, beliefs, separators, exponent)


def log2_evidence(tree: JunctionTree, likelihoods: Likelihoods) -> float:
    """Return log2 P(evidence), -inf when impossible: the pass up alone."""
    return _upwards(tree, likelihoods)[3]


def weighted(tree: JunctionTree, likelihoods: Likelihoods) -> list[Sequence[float]]:
    """Return the entries of every clique with the evidence multiplied in."""
    values: list[Sequence[float]] = [clique.weights for clique in tree.cliques]
    for variable, likelihood in likelihoods.items():
        home = tree.homes[variable]
        entries = zip(values[home.clique], home.state_of, strict=True)
        values[home.clique] = [value * likelihood[state] for value, state in entries]
    return values


def _upwards(
    tree: JunctionTree, likelihoods: Likelihoods
) -> tuple[list[Sequence[float]], list[list[float]], list[float], float]:
    """Collect towards the roots; each message is scaled to a largest entry of 1.

    The scales give P(evidence), and keep a clique with a thousand children from underflow.
    """
    values = weighted(tree, likelihoods)
    messages: list[list[float]] = [[] for _ in tree.cliques]
    scales = [1.0] * len(tree.cliques)
    for number, clique in enumerate(tree.cliques):
        value = values[number]
        for child, index in clique.children:
            message = messages[child]
            value = [entry * message[i] for entry, i in zip(value, index)]  # noqa: B905
        values[number] = value
        message = _sum_out(value, clique.to_separator, clique.separator_size)
        scale = max(message) if clique.parent >= 0 else sum(message)
        if scale <= 0.0:
            return [], [], [], -inf
        scales[number] = scale
        messages[number] = [entry / scale for entry in message]
    return values, messages, scales, sum(map(log2, scales))


def _downwards(
    tree: JunctionTree,
    values: list[Sequence[float]],
    messages: list[list[float]],
    scales: list[float],
) -> tuple[tuple[Sequence[float], ...], tuple[list[float], ...]]:
    """Distribute from the roots: multiply by what the parent knows beyond the message."""
    separators: list[list[float]] = [[1.0] for _ in tree.cliques]
    for number in range(len(tree.cliques) - 1, -1, -1):
        clique, scale = tree.cliques[number], scales[number]
        pairs = zip(separators[number], messages[number])  # noqa: B905
        ratio = [new / (old * scale) if old else 0.0 for new, old in pairs]
        index = clique.to_separator
        value = [entry * ratio[i] for entry, i in zip(values[number], index)]  # noqa: B905
        values[number] = value
        for child, index in clique.children:
            separators[child] = _sum_out(value, index, tree.cliques[child].separator_size)
    return tuple(values), tuple(separators)


def _sum_out(value: Sequence[float], index: tuple[int, ...], size: int) -> list[float]:
    """Return the marginal of a clique on a separator."""
    marginal = [0.0] * size
    for entry, i in zip(value, index):  # noqa: B905 - the inner loop of everything
        marginal[i] += entry
    return marginal


def _entropy(distribution: Sequence[float]) -> float:
    return -sum(p * log2(p) for p in distribution if p > 0.0)
