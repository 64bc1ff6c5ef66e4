"""Passes over a tree made outside of Python: the questions, and the answers as calibrations.

In a browser nearly all of a step goes into the inner loops of the passes, which another language
runs far faster. `pass_elsewhere` is given the functions of such a one and takes them for every pass
from then on. Texts go over the border, no objects; numbers that come back are their eight bytes, a
character each, as JSON would take longer than the passes. What it cannot do is worked out here.
"""

import json
from array import array
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import inf
from typing import Any

from engine.inference import propagation
from engine.inference.likelihoods import Likelihoods, check_likelihoods, exponent_of, scaled
from engine.inference.propagation import Beliefs, Calibration
from engine.inference.tree import JunctionTree
from engine.inference.upwards import collect

MOST = 12  # trees that are held at a time: one for each kind of set, and what a past makes of one

Hold = Callable[[int, str], object]
Answer = Callable[[int, str], str]


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """The functions: one takes a tree into a slot, two answer what was found about it.

    `evidence` gives log2 P(evidence), nothing where a product may vanish; `posteriors` the mean of
    log2 of all tables, then P(state | evidence) of all variables.
    """

    hold: Hold
    evidence: Answer
    posteriors: Answer
    trees: list[JunctionTree] = field(default_factory=list)  # by slot
    filled: list[int] = field(default_factory=lambda: [-1])  # the slot that was filled last

    def __call__(self, tree: JunctionTree, likelihoods: Likelihoods) -> Calibration | None:
        """Return the calibration, None where a product may vanish.

        Raises:
            EvidenceError: a likelihood is no vector of its variable.
        """
        check_likelihoods(likelihoods, tree.states)
        found = question(tree, likelihoods)
        answer = numbers(self.evidence(self.slot(tree), found))
        if not answer:
            return None
        if answer[0] == -inf:
            return Calibration(tree, likelihoods, (), -inf)
        total = answer[0] + sum(map(exponent_of, likelihoods.values()))
        beliefs = LateBeliefs(tree, likelihoods)
        return Passed(tree, likelihoods, beliefs, total, lambda: self.told(tree, found))

    def told(self, tree: JunctionTree, found: str) -> list[float]:
        """Return the mean of log2 of all tables, and the posteriors of all variables."""
        return numbers(self.posteriors(self.slot(tree), found))

    def slot(self, tree: JunctionTree) -> int:
        """Return where a tree is held; the oldest gives way to one that is not."""
        for slot, held in enumerate(self.trees):
            if held is tree:
                return slot
        slot = self.filled[0] = (self.filled[0] + 1) % MOST
        self.trees[slot : slot + 1] = [tree]
        self.hold(slot, tree_text(tree))
        return slot


@dataclass(frozen=True, slots=True)
class Passed(Calibration):
    """A calibration whose posteriors come from elsewhere, all at once when first asked for."""

    ask: Callable[[], list[float]]
    means: list[float] = field(default_factory=list)  # the mean of log2 of all tables, once known

    def posterior(self, variable: str) -> list[float]:
        """Return P(state | evidence) of `variable`, shape (states,), sum 1."""
        if not self.told:
            self._hear()
        return self.told[variable]

    def mean_log_weights(self) -> float:
        """Return the mean of log2 of all tables."""
        if not self.means:
            self._hear()
        return self.means[0]

    def _hear(self) -> None:
        mean, *told = self.ask()
        self.means.append(mean)
        start = 0
        for variable, home in self.tree.homes.items():
            self.told[variable] = told[start : start + home.states]
            start += home.states


class LateBeliefs(Sequence[Sequence[float]]):
    """The joint posterior of every clique, worked out here for the few who ask."""

    def __init__(self, tree: JunctionTree, likelihoods: Likelihoods) -> None:
        self.tree, self.likelihoods = tree, likelihoods
        self.made: Beliefs | None = None

    def __len__(self) -> int:
        """Count the cliques."""
        return len(self.tree.cliques)

    def __getitem__(self, number: Any) -> Any:
        """Return the joint posterior of a clique."""
        if self.made is None:
            self.made = Beliefs(self.tree, collect(self.tree, self.likelihoods))
        return self.made[number]


def pass_elsewhere(hold: Hold, evidence: Answer, posteriors: Answer) -> None:
    """Let all passes be made by these functions from now on; see `Elsewhere`."""
    propagation.ELSEWHERE[:] = [Elsewhere(hold, evidence, posteriors)]


def tree_text(tree: JunctionTree) -> str:
    """Return a tree as JSON: cliques, each with its smallest weight above 0, and homes."""
    cliques = [
        (c.weights, c.parent, c.separator_size, c.to_separator, c.children, floor)
        for c, floor in zip(tree.cliques, tree.floors, strict=True)
    ]
    homes = [(home.clique, home.states, home.state_of) for home in tree.homes.values()]
    return json.dumps({"cliques": cliques, "homes": homes})


def question(tree: JunctionTree, likelihoods: Likelihoods) -> str:
    """Return what was found as JSON: number of the home, vector, its floor, in order of names."""
    number = {variable: place for place, variable in enumerate(tree.homes)}
    found = [(number[name], *scaled(likelihoods[name])) for name in sorted(likelihoods)]
    return json.dumps(found)


def numbers(answer: str) -> list[float]:
    r"""Return the numbers of an answer.

    >>> numbers("\x00\x00\x00\x00\x00\x00\xf0?")
    [1.0]
    """
    return array("d", answer.encode("latin-1")).tolist()
