"""A root is put right: what was found before is carried over to the network as it is now.

Where the root had been fine, old and new network are the same, and all that was found holds for
both: exact. Where it was wrong, what does not hang on it holds for both and stays exact; what hangs
on it becomes one likelihood vector on each other root, so that each keeps the chance it had then
(an assumed density: what old findings said of several roots together is lost, unless found again).

References:
    Breese & Heckerman, Decision-theoretic troubleshooting, UAI 1996 (persistence of what a repair
    does not touch). Minka, A family of algorithms for approximate Bayesian inference (2001),
    section 3.1 (assumed-density filtering).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import compress
from math import inf, log2

from engine.inference import mixture, propagation
from engine.inference.likelihoods import Held, Likelihoods, sure
from engine.inference.mixture import MixedTree
from engine.inference.noisy_or import NoisyTree, OneTree
from engine.inference.past import AnyTree, Branch, ChangedTree, as_built, branches_of, times
from engine.inference.propagation import Calibration

SWEEPS = 3  # of matching; roots that old findings tie together need more than one
ALIKE = 0.01  # a root whose chances differ by less than this share needs no vector
LEAST = 2.0**-17  # branches this much less likely than the best are dropped
SETTLED = 0.01  # the same, of branches that differ only in what was settled since
MOST = 12  # branches kept


@dataclass(frozen=True, slots=True)
class Roots:
    """The roots of a network: `common` ones may bring about others, and count as such themselves.

    A common root in its first state brings about nothing.
    """

    single: tuple[str, ...]
    common: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """A root that is put right; `touched[n]` hangs on it in its state n + 1.

    `settled` tells of each root that was put right before it whether findings since were made to
    tell if it had been wrong: of its states a less likely one is dropped sooner.
    """

    root: str
    touched: tuple[frozenset[str], ...]
    roots: Roots
    settled: tuple[bool, ...] = ()


def touched(tree: AnyTree, root: str, roots: Roots) -> tuple[frozenset[str], ...]:
    """Return for each wrong state of `root` what is another thing then than with the root fine.

    Read off the tree: with every common root at rest all others are independent of `root`, so a
    variable whose chances move hangs on it. Of a mixture, what does so in any member.
    """
    now = as_built(tree)
    members = [one for one in _members(now) if root in one.states]
    found = [_touched(one, root, roots.common) for one in members]
    return tuple(frozenset().union(*ways) for ways in zip(*found, strict=True))


def _touched(tree: OneTree, root: str, common: Sequence[str]) -> list[set[str]]:
    tables, nodes = (tree.inner, tree.nodes) if isinstance(tree, NoisyTree) else (tree, {})
    rest: Held = {name: sure(tree.states[name], 0) for name in common if name in tree.states}
    fine, *wrong = (
        propagation.calibrate(tables, times(rest, {root: sure(tree.states[root], state)}))
        for state in range(tree.states[root])
    )
    shown = {name for name, node in nodes.items() if root in node.chances}
    others = [name for name in tables.states if name != root]
    usual = {name: fine.posterior(name) for name in others}
    return [shown | {n for n in others if _moved(usual[n], way.posterior(n))} for way in wrong]


def changed(tree: AnyTree, before: Likelihoods, standing: Likelihoods, how: Change) -> ChangedTree:
    """Return the tree after a root was put right.

    Args:
        tree: as it was, perhaps with a past of its own.
        before: what was found, and hangs on the root in one of its states.
        standing: what was found and does not; it is left to be given as evidence.
        how: which root, and what hangs on it.
    """
    now = as_built(tree)
    found = list(_possible(tree, before, standing, how))
    best = max(each.log2 for each in found)
    assert best > -inf, "what was found before is possible together"
    kept = [each for each in found if each.log2 >= best + log2(LEAST)]
    kept = list(_unsettled(kept, how.settled))
    kept.sort(key=lambda each: (-round(each.log2, 9), each.branch.was, each.state))
    kept = kept[:MOST]
    blamed = {state: _blame(now, how, state) for state in {each.state for each in kept} - {0}}
    return ChangedTree(
        now,
        tuple(
            _was_wrong(now, each, standing, how, blamed[each.state])
            if each.state
            else Branch((*each.branch.was, 0), each.branch.log2_start, each.then)
            for each in kept
        ),
    )


@dataclass(frozen=True, slots=True)
class _Was:
    """One way the set may have been: a branch of its past, and the state of the root then.

    `then` is all that was found and hangs on the root, with that state; `log2` how likely it is,
    with what does not hang on it.
    """

    branch: Branch
    state: int
    then: Held
    log2: float


def _unsettled(found: Sequence[_Was], settled: Sequence[bool]) -> Iterator[_Was]:
    """Yield the ways that are near the likeliest of those that differ only in settled roots."""

    def rest(each: _Was) -> tuple[int, ...]:
        is_open = (not done for done in (*settled, *[False] * len(each.branch.was)))
        return (*compress(each.branch.was, is_open), each.state)

    best: dict[tuple[int, ...], float] = {}
    for each in found:
        best[rest(each)] = max(best.get(rest(each), -inf), each.log2)
    yield from (each for each in found if each.log2 >= best[rest(each)] + log2(SETTLED))


def _possible(
    tree: AnyTree, before: Likelihoods, standing: Likelihoods, how: Change
) -> Iterator[_Was]:
    """Yield the ways the set may have been, one pass up for each."""
    now = as_built(tree)
    count = now.states[how.root]
    for branch in branches_of(tree):
        held = branch.with_evidence(before)
        if held is None:
            continue
        for state in range(count):
            then = times(held, {how.root: sure(count, state)})
            log = branch.log2_start + mixture.log2_evidence(now, times(then, standing))
            if log > -inf:
                yield _Was(branch, state, then, log)


def _was_wrong(
    now: mixture.Tree, was: _Was, standing: Likelihoods, how: Change, blame: Held
) -> Branch:
    """Return the branch in which the root had been wrong in one way."""
    old = mixture.calibrate(now, times(was.then, standing))
    hangs_on_it = {*how.touched[was.state - 1], how.root}
    kept: Held = {name: row for name, row in was.then.items() if name not in hangs_on_it}
    kept = times(kept, {how.root: sure(now.states[how.root], 0)} | blame)
    held = _matched(now, old, kept, standing, how.roots)
    start = was.log2 - mixture.log2_evidence(now, times(held, standing))
    return Branch((*was.branch.was, was.state), start, held)


def _blame(now: mixture.Tree, how: Change, state: int) -> Held:
    """Return what is said of the common roots by the root having been wrong, not fine.

    The root is fine now because somebody put it right, which says nothing of what harmed it.
    """
    count = now.states[how.root]
    fine, wrong = (mixture.calibrate(now, {how.root: sure(count, each)}) for each in (0, state))
    ratios = {}
    for name in how.roots.common:
        pairs = list(zip(wrong.posterior(name), fine.posterior(name), strict=True))
        if _moved(*zip(*pairs, strict=True)):
            ratios[name] = _scaled([p / q if q > 0.0 else 0.0 for p, q in pairs])
    return ratios


def _matched(
    now: mixture.Tree, old: Calibration, kept: Held, standing: Likelihoods, roots: Roots
) -> Held:
    """Return `kept` with vectors on roots, so that each has the chances it had in `old`."""
    names = [name for name in (*roots.common, *roots.single) if name in now.states]
    wanted = {name: old.posterior(name) for name in names}
    for _ in range(SWEEPS):
        here = mixture.calibrate(now, times(kept, standing))
        vectors: Held = {}
        for name in names:
            is_held = name in kept and not all(kept[name])  # the root that was put right
            ratio = [] if is_held else _ratio(wanted[name], here.posterior(name))
            if any(abs(each - 1.0) > ALIKE for each in ratio):
                vectors[name] = ratio
        if not vectors:
            break
        kept = {name: _scaled(row) for name, row in times(kept, vectors).items()}
    return kept


def _ratio(wanted: Sequence[float], here: Sequence[float]) -> list[float]:
    return [p / q if q > 0.0 else 1.0 for p, q in zip(wanted, here, strict=True)]


def _scaled(row: Sequence[float]) -> Sequence[float]:
    """Return a vector with 1 as its largest entry; what is 1 or 0 for certain stays as it is."""
    most = max(row)
    return [p / most for p in row] if most > 0.0 else row


def _moved(before: Sequence[float], after: Sequence[float]) -> bool:
    """Whether chances differ by more than rounding."""
    return any(abs(p - q) > 1e-12 + 1e-9 * min(p, q) for p, q in zip(before, after, strict=True))


def _members(tree: mixture.Tree) -> Sequence[OneTree]:
    return tree.members if isinstance(tree, MixedTree) else (tree,)
