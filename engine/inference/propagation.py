"""One pass up and one down a compiled tree: every posterior, and P(evidence).

Plain lists of numbers and next to nothing to import, so that a browser loads it in no time.

References:
    Jensen, Lauritzen & Olesen, Computational Statistics Quarterly 4 (1990) 269-282.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import inf, log2
from operator import mul

from engine.inference import logarithms
from engine.inference.likelihoods import Likelihoods as Likelihoods
from engine.inference.likelihoods import check_likelihoods, scaled
from engine.inference.tree import Clique as Clique
from engine.inference.tree import Home as Home
from engine.inference.tree import JunctionTree as JunctionTree

TINY = 1e-250  # products that may get smaller are worked out in logarithms


@dataclass(frozen=True, slots=True)
class Entries:
    """Entries of each clique with its findings multiplied in, over 2 ** `exponent` in all.

    No entry above 0 of a clique is smaller than its floor.
    """

    values: list[Sequence[float]]
    floors: list[float]
    exponent: int


@dataclass(frozen=True, slots=True)
class Upwards:
    """A pass up: entries of each clique with all below multiplied in, messages, their scales.

    `least` is the smallest entry above 0 of each message; `vanishes` tells that a product may
    have fallen below what a number can hold, so that nothing here is to be used.
    """

    values: list[Sequence[float]]
    messages: list[list[float]]
    scales: list[float]
    least: list[float]
    exponent: int = 0
    vanishes: bool = False

    @property
    def log2_evidence(self) -> float:
        """Log2 P(evidence), -inf when it is impossible."""
        return sum(map(log2, self.scales)) + self.exponent if all(self.scales) else -inf


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

    Raises:
        EvidenceError: a likelihood is no such vector.
    """
    up = _collect(tree, likelihoods)
    if up.vanishes:
        return Calibration(tree, likelihoods, *logarithms.beliefs(tree, likelihoods))
    total = up.log2_evidence
    beliefs = _downwards(tree, up) if total > -inf else ()
    return Calibration(tree, likelihoods, beliefs, total)


def log2_evidence(tree: JunctionTree, likelihoods: Likelihoods) -> float:
    """Return log2 P(evidence), -inf when impossible: the pass up alone."""
    up = _collect(tree, likelihoods)
    return logarithms.log2_evidence(tree, likelihoods) if up.vanishes else up.log2_evidence


@lru_cache(maxsize=8)
def _at_rest(tree: JunctionTree) -> Upwards:
    """Return the pass up without any evidence; every other pass starts from it."""
    count = len(tree.cliques)
    nothing = Upwards([()] * count, [[]] * count, [1.0] * count, [1.0] * count)
    return _upwards(tree, _weighted(tree, {}), nothing, range(count))


def _collect(tree: JunctionTree, likelihoods: Likelihoods) -> Upwards:
    """Pass up from the cliques with evidence; all others send what they send at rest."""
    check_likelihoods(likelihoods, tree.states)
    rest = _at_rest(tree)
    if rest.vanishes:
        return rest
    touched = set()
    for variable in likelihoods:
        number = tree.homes[variable].clique
        while number >= 0 and number not in touched:
            touched.add(number)
            number = tree.cliques[number].parent
    return _upwards(tree, _weighted(tree, likelihoods), rest, sorted(touched))


def _weighted(tree: JunctionTree, likelihoods: Likelihoods) -> Entries:
    """Multiply findings into the entries, each scaled by a power of 2."""
    values: list[Sequence[float]] = [clique.weights for clique in tree.cliques]
    floors, total = [*tree.floors], 0
    for variable, likelihood in likelihoods.items():
        home = tree.homes[variable]
        vector, floor, exponent = scaled(likelihood)
        by_entry = map(vector.__getitem__, home.state_of)
        values[home.clique] = list(map(mul, values[home.clique], by_entry))
        floors[home.clique] *= floor
        total += exponent
    return Entries(values, floors, total)


def _upwards(
    tree: JunctionTree, entries: Entries, before: Upwards, numbers: Sequence[int]
) -> Upwards:
    """Collect towards the roots along `numbers`; other cliques keep what they had before.

    Each message is scaled to a largest entry of 1: the scales give P(evidence), and keep a long
    chain from underflow. The smallest factors bound what a clique with a thousand children makes.
    """
    values, messages = [*before.values], [*before.messages]
    scales, least = [*before.scales], [*before.least]
    for number in numbers:
        clique, value, floor = tree.cliques[number], entries.values[number], entries.floors[number]
        for child, index in clique.children:
            message = messages[child]
            value = [entry * message[i] for entry, i in zip(value, index)]  # noqa: B905
            floor *= least[child]
        if floor < TINY:
            return Upwards(values, messages, scales, least, vanishes=True)
        message = _sum_out(value, clique.to_separator, clique.separator_size)
        scale = max(message)
        if scale:
            message = [entry / scale for entry in message]
        values[number], messages[number], scales[number] = value, message, scale
        least[number] = min(message) or min(filter(None, message), default=1.0)
    return Upwards(values, messages, scales, least, entries.exponent)


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


def _sum_out(value: Sequence[float], index: tuple[int, ...], size: int) -> list[float]:
    """Return the marginal of a clique on a separator."""
    marginal = [0.0] * size
    for entry, i in zip(value, index):  # noqa: B905 - the inner loop of everything
        marginal[i] += entry
    return marginal
