"""Several networks of which one is the true one, calibrated as the one network they are together.

A root says which member is true. A variable that a member lacks is in its first state there: what
is not fitted cannot be wrong. Variables of one name are one variable, so the posterior of each, and
the gain of what looks at it, is that of the mixture: exact but for members given up as hopeless.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from heapq import merge
from math import inf, log2

from engine.inference import noisy_or
from engine.inference.blending import Blend, weighed
from engine.inference.diagnoses import Assignment
from engine.inference.likelihoods import Likelihoods, check_likelihoods
from engine.inference.noisy_node import node_gain
from engine.inference.noisy_or import NoisyCalibration, NoisyTree, OneTree
from engine.inference.propagation import Calibration
from engine.inference.tree import JunctionTree

HOPELESS = 1e-4  # a member this much behind the best by looks at the root alone is left out


@dataclass(frozen=True, eq=False)
class MixedTree:
    """Members with their prior shares (sum 1), and the name of the root that says which is true.

    Where members have a variable of the same name, it has the same states in each.
    """

    root: str
    shares: tuple[float, ...]
    members: tuple[OneTree, ...]

    @cached_property
    def states(self) -> dict[str, int]:
        """How many states each variable has."""
        found = {self.root: len(self.members)}
        for member in self.members:
            found |= member.states
        return found

    @property
    def size(self) -> int:
        """How many entries the tables of all members have."""
        return sum(member.size for member in self.members)


Tree = JunctionTree | NoisyTree | MixedTree


@dataclass(frozen=True, slots=True)
class MixedCalibration(Blend):
    """Every member calibrated, and which is true."""

    mixed: MixedTree

    def posterior(self, variable: str) -> list[float]:
        """Return P(state | evidence) of `variable`, shape (states,), sum 1."""
        if variable == self.mixed.root:
            return [*self.weights]
        total = [0.0] * self.mixed.states[variable]
        rows = zip(self.weights, self.parts, self.mixed.members, strict=True)
        for weight, part, member in rows:
            if part is None or weight == 0.0:
                continue
            if variable not in member.states:
                total[0] += weight
                continue
            for state, p in enumerate(part.posterior(variable)):
                total[state] += weight * p
        return total


def calibrate(tree: Tree, likelihoods: Likelihoods) -> Calibration:
    """Return what `propagation.calibrate` does, of one network or of a mixture."""
    if not isinstance(tree, MixedTree):
        return noisy_or.calibrate(tree, likelihoods)
    parts: list[Calibration | None] = []
    logs: list[float] = []
    for start, member, held in _members(tree, likelihoods):
        part = noisy_or.calibrate(member, held) if start > -inf else None
        parts.append(part)
        logs.append(start + part.log2_evidence if part else -inf)
    whole, weights = weighed(logs)
    kept = tuple(parts) if whole > -inf else (None,)
    return MixedCalibration(tables_of(tree), likelihoods, (), whole, weights, kept, tree)


def log2_evidence(tree: Tree, likelihoods: Likelihoods) -> float:
    """Return log2 P(evidence), -inf when impossible."""
    if not isinstance(tree, MixedTree):
        return noisy_or.log2_evidence(tree, likelihoods)
    return calibrate(tree, likelihoods).log2_evidence


def noisy_gain(calibration: Calibration, variable: str) -> float | None:
    """Return about what looking at a noisy-or node tells, in bits; None of any other variable.

    Of a mixture the mean of its members: what the node tells of the member itself is left out.
    """
    if isinstance(calibration, MixedCalibration):
        return calibration.mean_gain(lambda part: noisy_gain(part, variable))
    if isinstance(calibration, NoisyCalibration) and variable in calibration.noisy.nodes:
        return node_gain(calibration.noisy.nodes[variable], calibration)
    return None


def fine_chance(tree: Tree, variable: str, row: Sequence[float]) -> float:
    """Return P(what `row` tells | every variable of the tables in its first state)."""
    member = tree.members[0] if isinstance(tree, MixedTree) else tree
    node = member.nodes.get(variable) if isinstance(member, NoisyTree) else None
    otherwise = node.otherwise if node else 0.0
    return row[0] * (1.0 - otherwise) + (row[1] * otherwise if otherwise else 0.0)


@dataclass(frozen=True, slots=True)
class MixedAssignment(Assignment):
    """An assignment of one member."""

    member: int


def assignments(tree: Tree, likelihoods: Likelihoods) -> Iterator[Assignment]:
    """Yield assignments in falling order of probability."""
    if not isinstance(tree, MixedTree):
        return noisy_or.assignments(tree, likelihoods)
    members = enumerate(_members(tree, likelihoods))
    runs = [_run(number, *member) for number, member in members if member[0] > -inf]
    return merge(*runs, key=lambda each: -each.log2_joint)


def states(tree: Tree, assignment: Assignment, names: Sequence[str]) -> list[int]:
    """Return the state of each of `names` in an assignment."""
    if not isinstance(tree, MixedTree):
        return noisy_or.states(tree, assignment, names)
    assert isinstance(assignment, MixedAssignment), "one of this mixture"
    member = tree.members[assignment.member]
    own = [name for name in names if name in member.homes]
    found = dict(zip(own, noisy_or.states(member, assignment, own), strict=True))
    return [found.get(name, 0) for name in names]


def tables_of(tree: Tree) -> JunctionTree:
    """Return the tables, of a mixture those of one member: for what holds none of its own."""
    first = tree.members[0] if isinstance(tree, MixedTree) else tree
    return first if isinstance(first, JunctionTree) else first.inner


def _run(
    number: int, start: float, member: OneTree, held: Likelihoods
) -> Iterator[MixedAssignment]:
    for each in noisy_or.assignments(member, held):
        yield MixedAssignment(each.entries, start + each.log2_joint, number)


def _members(
    tree: MixedTree, likelihoods: Likelihoods
) -> Iterator[tuple[float, OneTree, Likelihoods]]:
    """Yield for each member log2 of what it has before its own pass, the member, its evidence."""
    check_likelihoods(likelihoods, tree.states)
    rows = likelihoods.get(tree.root, (1.0,) * len(tree.members))
    first = [share * row for share, row in zip(tree.shares, rows, strict=True)]
    for share, member in zip(first, tree.members, strict=True):
        held = {name: row for name, row in likelihoods.items() if name in member.states}
        start = log2(share) if share > HOPELESS * max(first) else -inf
        for name, row in likelihoods.items():
            if name != tree.root and name not in held:
                start += log2(row[0]) if row[0] > 0.0 else -inf
        yield start, member, held
