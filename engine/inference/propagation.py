"""One pass up and one down a compiled tree: every posterior, and P(evidence).

Plain lists of numbers and nothing to import, so that a browser loads it in no time.

References:
    Jensen, Lauritzen & Olesen, Computational Statistics Quarterly 4 (1990) 269-282.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import inf, log2
from operator import itemgetter, mul


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


@dataclass(frozen=True, eq=False)
class JunctionTree:
    """Cliques, children before parents, and the home of every variable."""

    cliques: tuple[Clique, ...]
    homes: dict[str, Home]

    @property
    def size(self) -> int:
        """How many non-zero entries all cliques have: what one pass has to visit."""
        return sum(len(clique.weights) for clique in self.cliques)

    @cached_property
    def at_rest(self) -> "Upwards":
        """The pass up without any evidence; every other pass starts from it."""
        count = len(self.cliques)
        nothing = Upwards([()] * count, [[]] * count, [1.0] * count)
        return _upwards(self, [clique.weights for clique in self.cliques], nothing, range(count))

    @cached_property
    def from_separator(self) -> tuple[Callable[[Sequence[float]], Sequence[float]], ...]:
        """For each clique, what spreads numbers on its separator over its entries."""
        return tuple(_spreader(clique.to_separator) for clique in self.cliques)

    @cached_property
    def log_weights(self) -> tuple[tuple[int, tuple[float, ...]], ...]:
        """The log2 of the weights of each clique that has any but ones, by number."""
        return tuple(
            (number, tuple(map(log2, clique.weights)))
            for number, clique in enumerate(self.cliques)
            if any(weight != 1.0 for weight in clique.weights)
        )


Likelihoods = Mapping[str, Sequence[float]]


@dataclass(frozen=True, slots=True)
class Upwards:
    """A pass up: entries of each clique with all below multiplied in, messages, their scales."""

    values: list[Sequence[float]]
    messages: list[list[float]]
    scales: list[float]

    @property
    def log2_evidence(self) -> float:
        """Log2 P(evidence), -inf when it is impossible."""
        return sum(map(log2, self.scales)) if all(self.scales) else -inf


@dataclass(frozen=True, slots=True)
class Calibration:
    """A tree in which every clique holds its joint posterior; dimensionless.

    `log2_evidence` is log2 P(evidence), -inf when the evidence is impossible; the beliefs are
    then empty.
    """

    tree: JunctionTree
    likelihoods: Likelihoods
    beliefs: tuple[Sequence[float], ...]
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

        The joint posterior is the product of all tables and likelihoods over P(evidence); the
        mean of its log needs only the cliques whose tables are not all ones, the gates drop out.
        """
        mean = sum(
            sum(map(mul, self.beliefs[number], logs)) for number, logs in self.tree.log_weights
        )
        for variable, likelihood in self.likelihoods.items():
            pairs = zip(self.posterior(variable), likelihood, strict=True)
            mean += sum(p * log2(q) for p, q in pairs if p > 0.0)
        return self.log2_evidence - mean


def calibrate(tree: JunctionTree, likelihoods: Likelihoods) -> Calibration:
    """Return the posterior of every clique, given a likelihood vector for some variables.

    Args:
        tree: the compiled network.
        likelihoods: P(finding | state) for each state of a variable, at least 0; findings on one
            variable are multiplied beforehand.
    """
    up = _collect(tree, likelihoods)
    if up.log2_evidence == -inf:
        return Calibration(tree, likelihoods, (), -inf)
    return Calibration(tree, likelihoods, _downwards(tree, up), up.log2_evidence)


def log2_evidence(tree: JunctionTree, likelihoods: Likelihoods) -> float:
    """Return log2 P(evidence), -inf when impossible: the pass up alone."""
    return _collect(tree, likelihoods).log2_evidence


def weighted(tree: JunctionTree, likelihoods: Likelihoods) -> list[Sequence[float]]:
    """Return the entries of every clique with the evidence multiplied in."""
    values: list[Sequence[float]] = [clique.weights for clique in tree.cliques]
    for variable, likelihood in likelihoods.items():
        home = tree.homes[variable]
        entries = zip(values[home.clique], home.state_of, strict=True)
        values[home.clique] = [value * likelihood[state] for value, state in entries]
    return values


def _collect(tree: JunctionTree, likelihoods: Likelihoods) -> Upwards:
    """Pass up from the cliques with evidence; all others send what they send at rest."""
    touched = set()
    for variable in likelihoods:
        number = tree.homes[variable].clique
        while number >= 0 and number not in touched:
            touched.add(number)
            number = tree.cliques[number].parent
    return _upwards(tree, weighted(tree, likelihoods), tree.at_rest, sorted(touched))


def _upwards(
    tree: JunctionTree, entries: list[Sequence[float]], before: Upwards, numbers: Sequence[int]
) -> Upwards:
    """Collect towards the roots along `numbers`; other cliques keep what they had before.

    Each message is scaled to a largest entry of 1: the scales give P(evidence), and keep a clique
    with a thousand children from underflow.
    """
    values, messages, scales = [*before.values], [*before.messages], [*before.scales]
    for number in numbers:
        clique, value = tree.cliques[number], entries[number]
        for child, index in clique.children:
            message = messages[child]
            value = [entry * message[i] for entry, i in zip(value, index)]  # noqa: B905
        message = _sum_out(value, clique.to_separator, clique.separator_size)
        scale = max(message)
        values[number], scales[number] = value, scale
        messages[number] = [entry / scale for entry in message] if scale else message
    return Upwards(values, messages, scales)


def _downwards(tree: JunctionTree, up: Upwards) -> tuple[Sequence[float], ...]:
    """Distribute from the roots: multiply by what the parent knows beyond the message."""
    beliefs = [*up.values]
    separators: list[list[float]] = [[1.0] for _ in tree.cliques]
    for number in range(len(tree.cliques) - 1, -1, -1):
        clique, scale = tree.cliques[number], up.scales[number]
        pairs = zip(separators[number], up.messages[number])  # noqa: B905
        ratio = [new / (old * scale) if old else 0.0 for new, old in pairs]
        belief = list(map(mul, beliefs[number], tree.from_separator[number](ratio)))
        beliefs[number] = belief
        for child, index in clique.children:
            separators[child] = _sum_out(belief, index, tree.cliques[child].separator_size)
    return tuple(beliefs)


def _spreader(index: tuple[int, ...]) -> Callable[[Sequence[float]], Sequence[float]]:
    """Return what picks the numbers at `index`: in C, which a browser runs much faster."""
    if len(index) == 1:
        return lambda numbers: (numbers[index[0]],)
    return itemgetter(*index)


def _sum_out(value: Sequence[float], index: tuple[int, ...], size: int) -> list[float]:
    """Return the marginal of a clique on a separator."""
    marginal = [0.0] * size
    for entry, i in zip(value, index):  # noqa: B905 - the inner loop of everything
        marginal[i] += entry
    return marginal
