"""What many causes can each bring about, seen as one thing: noisy-or nodes outside of the tables.

A node is absent with chance (1 - otherwise) times (1 - chance) of every cause that is there. In
the tables it would tie all its causes together. Outside, "absent" is one likelihood on each cause,
and "seen" is what is left: P(x, seen) = P(x) - P(x, absent), twice the passes for each node seen.

References:
    Pearl, Probabilistic Reasoning in Intelligent Systems (1988), section 4.3.2.
    Heckerman, A tractable inference algorithm for diagnosing multiple diseases, UAI 1989.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from heapq import heappop, heappush
from itertools import product
from math import inf, log2

from engine.errors import EvidenceError
from engine.inference import diagnoses, propagation
from engine.inference.diagnoses import Assignment
from engine.inference.likelihoods import Likelihoods, times
from engine.inference.noisy_node import ABSENT, SEEN, mean_log2_seen
from engine.inference.noisy_node import NoisyOr as NoisyOr
from engine.inference.propagation import Calibration
from engine.inference.tree import Home, JunctionTree

UNLIKELY = 1e-12  # rounding noise of a difference, in proportion to what it is the difference of


@dataclass(frozen=True, eq=False)
class NoisyTree:
    """A junction tree, and noisy-or nodes by name over its variables."""

    inner: JunctionTree
    nodes: Mapping[str, NoisyOr]

    @cached_property
    def states(self) -> dict[str, int]:
        """How many states each variable has."""
        return self.inner.states | dict.fromkeys(self.nodes, 2)

    @property
    def homes(self) -> Mapping[str, Home]:
        """The homes of the variables of the tables."""
        return self.inner.homes

    @property
    def size(self) -> int:
        """How many non-zero entries the tables have."""
        return self.inner.size


OneTree = JunctionTree | NoisyTree


@dataclass(frozen=True, slots=True)
class NoisyCalibration(Calibration):
    """A calibrated tree that also tells the chances of its noisy-or nodes."""

    noisy: NoisyTree
    given: Likelihoods  # all evidence, that on nodes too
    terms: tuple[tuple[float, Calibration], ...] = ()  # signed shares of 1, and what has them

    def posterior(self, variable: str) -> list[float]:
        """Return P(state | evidence) of `variable`, shape (states,), sum 1.

        It is worked out once: do not change it.
        """
        kept = self.told.get(variable)
        if kept is None:
            is_node = variable in self.noisy.nodes
            kept = self._of_node(variable) if is_node else self._blended(variable)
            self.told[variable] = kept
        return kept

    def entropy_bits(self) -> float:
        """Return the entropy of all variables of the tables together, in bits; see `_beyond`."""
        if not self.terms:
            return self.log2_evidence
        mean = sum(share * part.mean_log_weights() for share, part in self.terms)
        beyond = _beyond(self.noisy, self.given, self.terms[0][1])
        return self.log2_evidence - mean - self.mean_log_likelihoods() - beyond

    def _blended(self, variable: str) -> list[float]:
        """Return the posterior of a variable of the tables: the terms' own, in their shares."""
        if len(self.terms) == 1:
            return self.terms[0][1].posterior(variable)
        total = [0.0] * self.noisy.states[variable]
        for share, part in self.terms:
            total = [t + share * p for t, p in zip(total, part.posterior(variable), strict=True)]
        return [max(p, 0.0) for p in total]

    def _of_node(self, variable: str) -> list[float]:
        """Return the posterior of a node: one more pass up."""
        if variable in self.given:
            return [*self.given[variable]]
        without = log2_evidence(self.noisy, {**self.given, variable: ABSENT})
        p = min(2.0 ** (without - self.log2_evidence), 1.0)
        return [p, 1.0 - p]


def renamed(tree: OneTree, more: Mapping[str, Home]) -> OneTree:
    """Return the tree with more names for its variables."""
    inner = _inner(tree)
    made = JunctionTree(inner.cliques, {**inner.homes, **more})
    return made if isinstance(tree, JunctionTree) else NoisyTree(made, tree.nodes)


def calibrate(tree: OneTree, likelihoods: Likelihoods) -> Calibration:
    """Return what `propagation.calibrate` does; a node may be given as absent or as seen.

    As both, [0, 0], it makes the evidence impossible.

    Raises:
        EvidenceError: a likelihood is no vector of its variable, or a node is given otherwise.
    """
    if isinstance(tree, JunctionTree):
        return propagation.calibrate(tree, likelihoods)
    if _is_contradicted(tree, likelihoods):
        return NoisyCalibration(tree.inner, {}, (), -inf, tree, likelihoods)
    terms = [
        (sign, propagation.calibrate(tree.inner, held)) for sign, held in _terms(tree, likelihoods)
    ]
    base = terms[0][1]
    total = _total([(sign, part.log2_evidence) for sign, part in terms])
    if total == -inf:
        return NoisyCalibration(tree.inner, base.likelihoods, (), -inf, tree, likelihoods)
    shares = tuple((sign * 2.0 ** (part.log2_evidence - total), part) for sign, part in terms)
    blend = tuple((share, part) for share, part in shares if part.is_possible)
    return NoisyCalibration(
        tree.inner, base.likelihoods, base.beliefs, total, tree, likelihoods, blend
    )


def log2_evidence(tree: OneTree, likelihoods: Likelihoods) -> float:
    """Return log2 P(evidence), -inf when impossible: passes up alone."""
    if isinstance(tree, JunctionTree):
        return propagation.log2_evidence(tree, likelihoods)
    if _is_contradicted(tree, likelihoods):
        return -inf
    terms = _terms(tree, likelihoods)
    return _total([(sign, propagation.log2_evidence(tree.inner, held)) for sign, held in terms])


def assignments(tree: OneTree, likelihoods: Likelihoods) -> Iterator[Assignment]:
    """Yield assignments in falling order of probability.

    What was seen of nodes makes an assignment less likely, never more: so one is yielded as soon
    as no assignment to come, without that, is as likely.
    """
    if isinstance(tree, JunctionTree):
        yield from diagnoses.assignments(tree, likelihoods)
        return
    if _is_contradicted(tree, likelihoods):
        return
    seen = [node for name, node in tree.nodes.items() if _is(likelihoods, name, SEEN)]
    waiting: list[tuple[float, int, Assignment]] = []
    names = {name for name in tree.nodes if _is(likelihoods, name, SEEN)}
    given = {name: row for name, row in likelihoods.items() if name not in names}
    factor, held = next(_terms(tree, given))
    for number, each in enumerate(diagnoses.assignments(tree.inner, held)):
        while waiting and -waiting[0][0] >= each.log2_joint + log2(factor):
            yield heappop(waiting)[2]
        log = each.log2_joint + log2(factor)
        log += sum(_log2_seen(tree, each, node) for node in seen)
        heappush(waiting, (-log, number, Assignment(each.entries, log)))
    while waiting:
        yield heappop(waiting)[2]


def states(tree: OneTree, assignment: Assignment, names: Sequence[str]) -> list[int]:
    """Return the state of each of `names` in an assignment."""
    return diagnoses.states(_inner(tree), assignment, names)


def _terms(tree: NoisyTree, likelihoods: Likelihoods) -> Iterator[tuple[float, Likelihoods]]:
    """Yield what P(x, evidence) is a sum of: a factor, and evidence on variables of the tables."""
    held: dict[str, Sequence[float]] = {}
    seen = [node for name, node in tree.nodes.items() if _is(likelihoods, name, SEEN)]
    factor = 1.0
    for name, row in likelihoods.items():
        if name not in tree.nodes:
            held[name] = row
        elif tuple(row) not in (ABSENT, SEEN):
            raise EvidenceError(f"{name}: found {list(row)}, expected [1, 0] or [0, 1]")
    for name, row in likelihoods.items():
        if name in tree.nodes and tuple(row) == ABSENT:
            factor *= 1.0 - tree.nodes[name].otherwise
            held = times(held, tree.nodes[name].absent())
    for taken in product((False, True), repeat=len(seen)):
        sign, term = factor, held
        for node, is_taken in zip(seen, taken, strict=True):
            if is_taken:
                sign *= -(1.0 - node.otherwise)
                term = times(term, node.absent())
        yield sign, term


def _total(terms: Sequence[tuple[float, float]]) -> float:
    """Return log2 of a sum of signed terms, each a factor and log2 of a number."""
    most = max(log for _, log in terms)
    if most == -inf:
        return -inf
    parts = [sign * 2.0 ** (log - most) for sign, log in terms]
    total = sum(parts)
    return most + log2(total) if total > UNLIKELY * max(map(abs, parts)) else -inf


def _beyond(tree: NoisyTree, likelihoods: Likelihoods, base: Calibration) -> float:
    """Return the mean of log2 of what the nodes add to the likelihoods of their causes.

    Exact for what is absent; for what was seen, as if it had one cause at a time.
    """
    total = 0.0
    for name, node in tree.nodes.items():
        if _is(likelihoods, name, ABSENT):
            total += log2(1.0 - node.otherwise)
        elif _is(likelihoods, name, SEEN):
            total += mean_log2_seen(node, base)
    return total


def _is_contradicted(tree: NoisyTree, likelihoods: Likelihoods) -> bool:
    """Whether a node was found absent and seen: both, or neither, cannot be."""
    return any(name in tree.nodes and not any(row) for name, row in likelihoods.items())


def _is(likelihoods: Likelihoods, name: str, what: Sequence[float]) -> bool:
    return tuple(likelihoods.get(name, ())) == what


def _log2_seen(tree: NoisyTree, assignment: Assignment, node: NoisyOr) -> float:
    absent = 1.0 - node.otherwise
    names = list(node.chances)
    ways = diagnoses.states(tree.inner, assignment, names)
    for name, state in zip(names, ways, strict=True):
        absent *= 1.0 - node.chances[name][state]
    return log2(1.0 - absent)


def _inner(tree: OneTree) -> JunctionTree:
    return tree if isinstance(tree, JunctionTree) else tree.inner
