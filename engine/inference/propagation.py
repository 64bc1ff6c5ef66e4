"""One pass up and one down a compiled tree: every posterior, and P(evidence).

Plain lists of numbers and next to nothing to import, so that a browser loads it in no time.

References:
    Jensen, Lauritzen & Olesen, Computational Statistics Quarterly 4 (1990) 269-282.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import inf, log2
from operator import mul, truediv
from typing import Any

from engine.inference import logarithms
from engine.inference.likelihoods import Likelihoods as Likelihoods
from engine.inference.tree import Clique as Clique
from engine.inference.tree import Home as Home
from engine.inference.tree import JunctionTree as JunctionTree
from engine.inference.upwards import Upwards, collect, sum_out


@dataclass(frozen=True, slots=True)
class Calibration:
    """A tree in which every clique holds its joint posterior; dimensionless.

    `log2_evidence` is log2 P(evidence), -inf when the evidence is impossible; the beliefs are
    then empty.
    """

    tree: JunctionTree
    likelihoods: Likelihoods
    beliefs: Sequence[Sequence[float]]
    log2_evidence: float
    told: dict[str, list[float]] = field(init=False, default_factory=dict, repr=False)

    @property
    def is_possible(self) -> bool:
        """Whether the evidence has a probability above zero."""
        return self.log2_evidence > -inf

    def posterior(self, variable: str) -> list[float]:
        """Return P(state | evidence) of `variable`, shape (states,), sum 1.

        It is worked out once: do not change it.
        """
        kept = self.told.get(variable)
        if kept is None:
            home = self.tree.homes[variable]
            kept = sum_out(self.beliefs[home.clique], home.state_of, home.states)
            self.told[variable] = kept
        return kept

    def entropy_bits(self) -> float:
        """Return the entropy of all variables together, in bits.

        The joint posterior is the product of all tables and likelihoods over P(evidence); the
        mean of its log needs only the cliques whose tables are not all ones, the gates drop out.
        """
        return self.log2_evidence - self.mean_log_weights() - self.mean_log_likelihoods()

    def mean_log_weights(self) -> float:
        """Return the mean of log2 of all tables."""
        rows = self.tree.log_weights
        return sum(sum(map(mul, self.beliefs[number], logs)) for number, logs in rows)

    def mean_log_likelihoods(self) -> float:
        """Return the mean of log2 of what was found."""
        total = 0.0
        for variable, likelihood in self.likelihoods.items():
            pairs = zip(self.posterior(variable), likelihood, strict=True)
            total += sum(p * log2(q) for p, q in pairs if p > 0.0)
        return total


ELSEWHERE: list[Callable[[JunctionTree, Likelihoods], Calibration | None]] = []
"""Who makes the passes in a quicker language, at most one, see `elsewhere.py`; None leaves one."""


def calibrate(tree: JunctionTree, likelihoods: Likelihoods) -> Calibration:
    """Return the posterior of every clique, given a likelihood vector for some variables.

    Args:
        tree: the compiled network.
        likelihoods: P(finding | state) for each state of a variable, at least 0; findings on one
            variable are multiplied beforehand.

    Raises:
        EvidenceError: a likelihood is no such vector.
    """
    for elsewhere in ELSEWHERE:
        if (made := elsewhere(tree, likelihoods)) is not None:
            return made
    up = collect(tree, likelihoods)
    if up.vanishes:
        return Calibration(tree, likelihoods, *logarithms.beliefs(tree, likelihoods))
    total = up.log2_evidence
    beliefs = Beliefs(tree, up) if total > -inf else ()
    return Calibration(tree, likelihoods, beliefs, total)


def log2_evidence(tree: JunctionTree, likelihoods: Likelihoods) -> float:
    """Return log2 P(evidence), -inf when impossible: the pass up alone."""
    for elsewhere in ELSEWHERE:
        if (made := elsewhere(tree, likelihoods)) is not None:
            return made.log2_evidence
    up = collect(tree, likelihoods)
    return logarithms.log2_evidence(tree, likelihoods) if up.vanishes else up.log2_evidence


class Beliefs(Sequence[Sequence[float]]):
    """The joint posterior of every clique, each worked out when it is first asked for.

    What its parent knows beyond the message it sent up multiplies what is at hand.
    """

    __slots__ = ("done", "separators", "tree", "up")

    def __init__(self, tree: JunctionTree, up: Upwards) -> None:
        self.tree, self.up = tree, up
        self.done: dict[int, Sequence[float]] = {}
        self.separators: dict[int, list[float]] = {}

    def __len__(self) -> int:
        """Count the cliques."""
        return len(self.tree.cliques)

    def __getitem__(self, number: Any) -> Any:
        """Return the joint posterior of a clique: those above it come first."""
        done, cliques = self.done, self.tree.cliques
        if number in done:
            return done[number]
        if not 0 <= number < len(cliques):
            raise IndexError(number)
        path = []
        while number >= 0 and number not in done:
            path.append(number)
            number = cliques[number].parent
        for each in reversed(path):
            done[each] = self._multiplied(each)
        return done[path[0]]

    def separator(self, number: int) -> list[float]:
        """Return the joint posterior of what a clique shares with the one above, [1] at a root.

        It is kept: one thing supposed after the other asks for the same.
        """
        kept = self.separators.get(number)
        if kept is None:
            kept = self.separators[number] = self._from_above(number)
        return kept

    def _from_above(self, number: int) -> list[float]:
        clique = self.tree.cliques[number]
        if clique.parent < 0:
            return [1.0]
        return sum_out(self[clique.parent], self.tree.in_parent[number], clique.separator_size)

    def _multiplied(self, number: int) -> Sequence[float]:
        """Multiply in what comes from above; a tuple, which the collector of garbage passes by."""
        ratio = list(map(truediv, self._from_above(number), self.up.sent[number]))
        return tuple(map(mul, self.up.values[number], self.tree.from_separator[number](ratio)))
