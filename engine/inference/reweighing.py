"""Other chances for some variables of a compiled tree, without compiling it again.

Only roots, and variables all of whose parents are roots, can be given another chance. Under each
state of the parents the odds of all states but the first are multiplied by one number, the same
under each, and the row sums to 1 again; so a root simply gets its new chance, what the parents do
is the same, and P(evidence) stays a probability.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import exp, log
from operator import mul

from engine.inference.propagation import Calibration, calibrate
from engine.inference.tree import JunctionTree

LINKED = 1e-9  # a row that moves by less with a parent is not under it
HALVINGS = 110  # of an interval of 120: down to the last digit of a float
FARTHEST = 60.0  # natural log of the largest factor looked for


@dataclass(frozen=True, slots=True)
class Reweighed:
    """The tree with its new chances, and what P(all variables in their first state) grew by."""

    tree: JunctionTree
    fine_factor: float


def odds_factor(shares: Sequence[float], chances: Sequence[float], target: float) -> float:
    """Return what to multiply the odds in every row with, so that the mean chance is `target`.

    Args:
        shares: P(row), sum 1.
        chances: P(not in the first state | row), in (0, 1) of one row at least.
        target: in (0, 1).

    >>> round(odds_factor([1.0], [0.2], 0.5), 12)
    4.0
    """
    if len(shares) == 1:
        return target * (1.0 - chances[0]) / (chances[0] * (1.0 - target))
    low, high = -FARTHEST, FARTHEST
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        factor = exp(middle)
        mean = sum(
            p * q * factor / row_sum(q, factor) for p, q in zip(shares, chances, strict=True)
        )
        low, high = (middle, high) if mean < target else (low, middle)
    return exp((low + high) / 2.0)


def row_sum(chance: float, factor: float) -> float:
    """Return what a row sums to once its states but the first are multiplied by `factor`."""
    return 1.0 - chance + factor * chance


def reweighed(
    tree: JunctionTree, targets: Mapping[str, float], parents: Sequence[str]
) -> Reweighed:
    """Return the tree in which P(variable not in its first state) is what `targets` says.

    Args:
        tree: the compiled network.
        targets: the new chance of each variable, in (0, 1).
        parents: every root that one of these variables may be under.
    """
    rest = calibrate(tree, {})
    above = _parents_of(tree, targets, parents)
    places = {name: states_in_cliques(tree, name) for name in parents}
    weights: list[Sequence[float]] = [clique.weights for clique in tree.cliques]
    fine = 1.0
    for name, target in targets.items():
        before = 1.0 - rest.posterior(name)[0]
        if before <= 0.0 or abs(log(target / before)) < 1e-15:
            continue
        clique, rows, states = _rows(tree, name, [places[each] for each in above[name]])
        factors, grown = _factors(rest, clique, rows, states, target)
        weights[clique] = list(map(mul, weights[clique], factors))
        fine *= grown
    cliques = tuple(
        replace(clique, weights=tuple(new)) if new is not clique.weights else clique
        for clique, new in zip(tree.cliques, weights, strict=True)
    )
    return Reweighed(JunctionTree(cliques, tree.homes), fine)


def restated(tree: JunctionTree, name: str, chances: Sequence[float]) -> Reweighed:
    """Return the tree in which a root has other chances; all else is as before, given its state.

    Args:
        tree: the compiled network.
        name: a root; no state that was impossible becomes possible.
        chances: P(state), shape (states,), sum 1.
    """
    before = calibrate(tree, {}).posterior(name)
    ratios = [new / old if old else 0.0 for new, old in zip(chances, before, strict=True)]
    home = tree.homes[name]
    clique = tree.cliques[home.clique]
    weights = tuple(
        w * ratios[state] for w, state in zip(clique.weights, home.state_of, strict=True)
    )
    changed = replace(clique, weights=weights)
    cliques = (*tree.cliques[: home.clique], changed, *tree.cliques[home.clique + 1 :])
    return Reweighed(JunctionTree(cliques, tree.homes), ratios[0])


def states_in_cliques(tree: JunctionTree, variable: str) -> dict[int, Sequence[int]]:
    """Return the state of a variable in each entry of every clique whose entries tell it."""
    home = tree.homes[variable]
    found: dict[int, Sequence[int]] = {home.clique: home.state_of}
    waiting = [home.clique]
    while waiting:
        number = waiting.pop()
        for other, ours, theirs, size in _neighbours(tree, number):
            told = None if other in found else _through(found[number], ours, size)
            if told is not None:
                found[other] = [told[i] for i in theirs]
                waiting.append(other)
    return found


def _neighbours(
    tree: JunctionTree, number: int
) -> list[tuple[int, Sequence[int], Sequence[int], int]]:
    """Return the cliques next to one: number, both indices into the separator, its size."""
    clique = tree.cliques[number]
    found: list[tuple[int, Sequence[int], Sequence[int], int]] = [
        (child, index, tree.cliques[child].to_separator, tree.cliques[child].separator_size)
        for child, index in clique.children
    ]
    if clique.parent >= 0:
        index = dict(tree.cliques[clique.parent].children)[number]
        found.append((clique.parent, clique.to_separator, index, clique.separator_size))
    return found


def _through(states: Sequence[int], index: Sequence[int], size: int) -> list[int] | None:
    """Return the state in each entry of a separator, None when it does not tell."""
    told = [-1] * size
    for state, i in zip(states, index, strict=True):
        if told[i] not in (-1, state):
            return None
        told[i] = state
    return told if -1 not in told else None


def _parents_of(
    tree: JunctionTree, names: Mapping[str, float], parents: Sequence[str]
) -> dict[str, list[str]]:
    """Return for each variable the parents it is under: those that move its chance."""
    above: dict[str, list[str]] = {name: [] for name in names}
    for parent in parents:
        count = tree.homes[parent].states
        sure = [[float(state == one) for state in range(count)] for one in range(count)]
        given = [calibrate(tree, {parent: row}) for row in sure]
        for name in names:
            chances = [each.posterior(name)[0] for each in given if each.is_possible]
            if max(chances) - min(chances) > LINKED:
                above[name].append(parent)
    return above


def _rows(
    tree: JunctionTree, name: str, above: Sequence[Mapping[int, Sequence[int]]]
) -> tuple[int, list[tuple[int, ...]], Sequence[int]]:
    """Return a clique with a variable and its parents: number, row and state of each entry."""
    home = tree.homes[name]
    if not above:
        return home.clique, [()] * len(home.state_of), home.state_of
    own = states_in_cliques(tree, name)
    number = min(each for each in own if all(each in place for place in above))
    return number, list(zip(*(place[number] for place in above), strict=True)), own[number]


def _factors(
    rest: Calibration,
    clique: int,
    rows: Sequence[tuple[int, ...]],
    states: Sequence[int],
    target: float,
) -> tuple[list[float], float]:
    """Return what each entry is multiplied with, and what that is with all in the first state."""
    shares: dict[tuple[int, ...], float] = {}
    bad: dict[tuple[int, ...], float] = {}
    for row, state, belief in zip(rows, states, rest.beliefs[clique], strict=True):
        shares[row] = shares.get(row, 0.0) + belief
        bad[row] = bad.get(row, 0.0) + (belief if state else 0.0)
    chances = {row: bad[row] / share for row, share in shares.items()}
    factor = odds_factor([*shares.values()], [chances[row] for row in shares], target)
    sums = {row: row_sum(chance, factor) for row, chance in chances.items()}
    grown = 1.0 / sums[(0,) * len(rows[0])]
    return [(factor if s else 1.0) / sums[row] for row, s in zip(rows, states, strict=True)], grown
