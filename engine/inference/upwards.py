"""The pass up a tree: from a pass that is kept, along the cliques where evidence differs."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import inf, log2
from operator import mul

from engine.inference.likelihoods import Likelihoods, check_likelihoods, exponent_of, scaled
from engine.inference.tree import JunctionTree

TINY = 1e-250  # products that may get smaller are worked out in logarithms


@dataclass(frozen=True, slots=True)
class Entries:
    """Entries of some cliques, by number, with their findings multiplied in.

    No entry above 0 of a clique is smaller than its floor.
    """

    values: dict[int, Sequence[float]]
    floors: dict[int, float]


@dataclass(frozen=True, slots=True)
class Upwards:
    """A pass up: entries of each clique with all below multiplied in, messages, their scales.

    `sent` is each message before it was scaled, with 1 in place of 0: what divides on the way down,
    where nothing stands over nothing. `least` is the smallest entry above 0 of each message,
    `exponent` the power of 2 that the findings were scaled by; `vanishes` tells that a product may
    have fallen below what a number can hold, so that nothing here is to be used.
    """

    likelihoods: Likelihoods
    values: list[Sequence[float]]
    messages: list[list[float]]
    sent: list[list[float]]
    scales: list[float]
    least: list[float]
    exponent: int = 0
    vanishes: bool = False

    @property
    def log2_evidence(self) -> float:
        """Log2 P(evidence), -inf when it is impossible."""
        return sum(map(log2, self.scales)) + self.exponent if all(self.scales) else -inf


@lru_cache(maxsize=16)
def _at_rest(tree: JunctionTree) -> Upwards:
    """Return the pass up without any evidence; every other pass starts from it."""
    count = len(tree.cliques)
    empty: list[list[float]] = [[]] * count
    nothing = Upwards({}, [()] * count, empty, empty, [1.0] * count, [1.0] * count)
    return _upwards(tree, {}, nothing, range(count))


def collect(tree: JunctionTree, likelihoods: Likelihoods) -> Upwards:
    """Pass up from the cliques where evidence differs from that of a pass which is still kept.

    All others send what they sent then. A case grows by one finding at a time, so most do.
    """
    check_likelihoods(likelihoods, tree.states)
    if _at_rest(tree).vanishes:
        return _at_rest(tree)
    before, changed = _nearest(tree, likelihoods)
    touched = set()
    for variable in changed:
        number = tree.homes[variable].clique
        while number >= 0 and number not in touched:
            touched.add(number)
            number = tree.cliques[number].parent
    up = _upwards(tree, likelihoods, before, sorted(touched))
    if not up.vanishes:
        tree.passes.append(up)
    return up


def _nearest(tree: JunctionTree, likelihoods: Likelihoods) -> tuple[Upwards, list[str]]:
    """Return the kept pass from whose evidence fewest vectors differ, and whose those are."""
    kept = [*tree.passes, _at_rest(tree)]
    told = [(up, _differing(up.likelihoods, likelihoods)) for up in kept]
    return min(told, key=lambda pair: len(pair[1]))


def _differing(one: Likelihoods, other: Likelihoods) -> list[str]:
    """Return the variables of which two sets of evidence do not tell the same."""
    gone = [variable for variable in one if variable not in other]
    return gone + [name for name, row in other.items() if one.get(name) != row]


def _weighted(tree: JunctionTree, likelihoods: Likelihoods, numbers: Iterable[int]) -> Entries:
    """Multiply findings into the entries of some cliques, each scaled by a power of 2.

    In the order of their names, so that a pass does not depend on those before it.
    """
    values: dict[int, Sequence[float]] = {n: tree.cliques[n].weights for n in numbers}
    floors = {number: tree.floors[number] for number in values}
    for variable in sorted(likelihoods):
        home = tree.homes[variable]
        if home.clique in values:
            vector, floor = scaled(likelihoods[variable])
            by_entry = map(vector.__getitem__, home.state_of)
            values[home.clique] = list(map(mul, values[home.clique], by_entry))
            floors[home.clique] *= floor
    return Entries(values, floors)


def _upwards(
    tree: JunctionTree, likelihoods: Likelihoods, before: Upwards, numbers: Sequence[int]
) -> Upwards:
    """Collect towards the roots along `numbers`; other cliques keep what they had before.

    Each message is scaled to a largest entry of 1: the scales give P(evidence), and keep a long
    chain from underflow. The smallest factors bound what a clique with a thousand children makes.
    """
    entries = _weighted(tree, likelihoods, numbers)
    exponent = sum(exponent_of(row) for row in likelihoods.values())
    values, messages, sent = [*before.values], [*before.messages], [*before.sent]
    scales, least = [*before.scales], [*before.least]
    up = Upwards(dict(likelihoods), values, messages, sent, scales, least, exponent)
    for number in numbers:
        clique, value, floor = tree.cliques[number], entries.values[number], entries.floors[number]
        for child, _ in clique.children:
            value = tuple(map(mul, value, tree.over_parent[child](messages[child])))
            floor *= least[child]
        if floor < TINY:
            return replace(up, vanishes=True)
        message = sum_out(value, clique.to_separator, clique.separator_size)
        scale = max(message)
        sent[number] = [entry or 1.0 for entry in message]
        if scale:
            message = [entry / scale for entry in message]
        values[number], messages[number], scales[number] = value, message, scale
        least[number] = min(message) or min(filter(None, message), default=1.0)
    return up


def sum_out(value: Sequence[float], index: tuple[int, ...], size: int) -> list[float]:
    """Return the marginal of a clique on a separator."""
    marginal = [0.0] * size
    for entry, i in zip(value, index):  # noqa: B905 - the inner loop of everything
        marginal[i] += entry
    return marginal
