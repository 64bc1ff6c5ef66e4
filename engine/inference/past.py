"""A network after some of its roots were put right, with what was found before carried along.

What was found before a root was put right speaks of the network as it was. Each state that root
may have been in is a branch: an ordinary set of likelihoods on the network as it is now, and how
likely all that is. The branches together are one distribution, calibrated as a mixture is.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from heapq import merge
from math import inf

from engine.inference import mixture
from engine.inference.blending import Blend, log2_sum, weighed
from engine.inference.diagnoses import Assignment
from engine.inference.likelihoods import Held, Likelihoods
from engine.inference.likelihoods import times as times
from engine.inference.propagation import Calibration


@dataclass(frozen=True, slots=True, eq=False)
class Branch:
    """One way in which the roots that were put right may have been wrong, or fine, before.

    `was` holds the state of each, in order; the joint probability of the branch, of what was found
    before, and of an assignment now is 2 ** `log2_start` times that of the tree under `held`.
    """

    was: tuple[int, ...] = ()
    log2_start: float = 0.0
    held: Likelihoods = field(default_factory=dict)

    def with_evidence(self, likelihoods: Likelihoods) -> Held | None:
        """Return what is held and more evidence, None where the two exclude each other."""
        together = times(self.held, likelihoods)
        both = [name for name in self.held if name in likelihoods]
        return together if all(any(together[name]) for name in both) else None


@dataclass(frozen=True, eq=False)
class ChangedTree:
    """A tree, and the branches of its past: at least one, all of them possible."""

    now: mixture.Tree
    branches: tuple[Branch, ...]

    @cached_property
    def states(self) -> dict[str, int]:
        """How many states each variable has."""
        return dict(self.now.states)

    @property
    def size(self) -> int:
        """How many entries the tables have; all branches share them."""
        return self.now.size


AnyTree = mixture.Tree | ChangedTree
NO_PAST = Branch()


def branches_of(tree: AnyTree) -> tuple[Branch, ...]:
    """Return the branches of a tree; one that says nothing where nothing was put right."""
    return tree.branches if isinstance(tree, ChangedTree) else (NO_PAST,)


def as_built(tree: AnyTree) -> mixture.Tree:
    """Return the tree without its past."""
    return tree.now if isinstance(tree, ChangedTree) else tree


@dataclass(frozen=True, slots=True)
class ChangedCalibration(Blend):
    """Every branch calibrated; its entropy is that of what is now and of what was before."""

    changed: ChangedTree

    def posterior(self, variable: str) -> list[float]:
        """Return P(state now | evidence) of `variable`, shape (states,), sum 1."""
        total = [0.0] * self.changed.states[variable]
        for weight, part in zip(self.weights, self.parts, strict=True):
            if part is not None and weight > 0.0:
                for state, p in enumerate(part.posterior(variable)):
                    total[state] += weight * p
        return total


def calibrate(tree: AnyTree, likelihoods: Likelihoods) -> Calibration:
    """Return what `propagation.calibrate` does, of any tree."""
    if not isinstance(tree, ChangedTree):
        return mixture.calibrate(tree, likelihoods)
    parts: list[Calibration | None] = []
    logs: list[float] = []
    for branch in tree.branches:
        held = branch.with_evidence(likelihoods)
        part = mixture.calibrate(tree.now, held) if held is not None else None
        parts.append(part)
        logs.append(branch.log2_start + part.log2_evidence if part else -inf)
    whole, weights = weighed(logs)
    tables = mixture.tables_of(tree.now)
    return ChangedCalibration(tables, likelihoods, (), whole, weights, tuple(parts), tree)


def log2_evidence(tree: AnyTree, likelihoods: Likelihoods) -> float:
    """Return log2 P(evidence and what was found before), -inf when impossible."""
    if not isinstance(tree, ChangedTree):
        return mixture.log2_evidence(tree, likelihoods)
    logs = []
    for branch in tree.branches:
        held = branch.with_evidence(likelihoods)
        if held is not None:
            logs.append(branch.log2_start + mixture.log2_evidence(tree.now, held))
    return log2_sum(logs)


def noisy_gain(calibration: Calibration, variable: str) -> float | None:
    """Return about what looking at a noisy-or node tells, in bits; None of any other variable.

    The mean over the branches: what it tells of the branch itself is left out.
    """
    if not isinstance(calibration, ChangedCalibration):
        return mixture.noisy_gain(calibration, variable)
    return calibration.mean_gain(lambda part: mixture.noisy_gain(part, variable))


def fine_chance(tree: AnyTree, variable: str, row: Sequence[float]) -> float:
    """Return P(what `row` tells | every variable of the tables in its first state)."""
    return mixture.fine_chance(as_built(tree), variable, row)


@dataclass(frozen=True, slots=True)
class ChangedAssignment(Assignment):
    """An assignment of what is now in one branch of the past."""

    now: Assignment


def assignments(tree: AnyTree, likelihoods: Likelihoods) -> Iterator[Assignment]:
    """Yield assignments in falling order of probability; one may come from several branches."""
    if not isinstance(tree, ChangedTree):
        return mixture.assignments(tree, likelihoods)
    runs = [_run(tree, branch, likelihoods) for branch in tree.branches]
    return merge(*runs, key=lambda each: -each.log2_joint)


def _run(tree: ChangedTree, branch: Branch, likelihoods: Likelihoods) -> Iterator[Assignment]:
    held = branch.with_evidence(likelihoods)
    for each in mixture.assignments(tree.now, held) if held is not None else ():
        yield ChangedAssignment(each.entries, branch.log2_start + each.log2_joint, each)


def states(tree: AnyTree, assignment: Assignment, names: Sequence[str]) -> list[int]:
    """Return the state of each of `names` in an assignment."""
    if not isinstance(tree, ChangedTree):
        return mixture.states(tree, assignment, names)
    assert isinstance(assignment, ChangedAssignment), "one of this tree"
    return mixture.states(tree.now, assignment.now, names)
