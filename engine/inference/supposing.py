"""One more likelihood on a calibrated tree: what moves is worked out outwards from it, and no more.

Beliefs are already those of all evidence, so a clique takes from its neighbour on the way to the
variable only by how much their separator changed. Where that did not change, nothing behind it does
either: most findings, and most supposed causes, move a part of the tree only.

References:
    Lauritzen & Spiegelhalter, J. R. Statist. Soc. B 50 (1988) 157-224, section 5 (absorption).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf, log2
from operator import mul
from typing import Any

from engine.inference import past
from engine.inference.blending import Blend, weighed
from engine.inference.likelihoods import check_likelihoods, times
from engine.inference.mixture import MixedCalibration
from engine.inference.noisy_or import UNLIKELY, NoisyCalibration
from engine.inference.past import AnyTree
from engine.inference.propagation import Beliefs, Calibration
from engine.inference.tree import JunctionTree
from engine.inference.upwards import sum_out

STILL = 1e-14  # a separator that changed by no larger share has not changed
FAINT = 1e-100  # what is less likely is worked out anew: products of numbers might vanish


def supposed(
    tree: AnyTree, now: Calibration, variable: str, likelihood: Sequence[float]
) -> Calibration:
    """Return what `past.calibrate` does of `tree` with one more likelihood than `now` has.

    The same numbers to 1e-12, at a part of the cost; `now` shares what it has worked out.

    Args:
        tree: what `now` was calibrated on.
        now: the evidence so far, calibrated.
        variable: one of the tree; what is already known of it holds too.
        likelihood: one number for each of its states, finite and at least 0.

    Raises:
        EvidenceError: a likelihood is no such vector.
    """
    check_likelihoods({variable: likelihood}, tree.states)
    more = _moved(now, variable, likelihood)
    if more is not None:
        return more
    given = now.given if isinstance(now, NoisyCalibration) else now.likelihoods
    return past.calibrate(tree, times(given, {variable: likelihood}))


def _moved(now: Calibration, variable: str, row: Sequence[float]) -> Calibration | None:
    """Return `now` with a likelihood more, None where that is to be worked out anew."""
    if not now.is_possible:
        return None
    match now:
        case NoisyCalibration():
            return None if variable in now.noisy.nodes else _noisy(now, variable, row)
        case MixedCalibration():
            return None if variable == now.mixed.root else _blended(now, variable, row)
        case Blend():
            return _blended(now, variable, row)
    return _tables(now, variable, row)


def _blended(now: Blend, variable: str, row: Sequence[float]) -> Calibration | None:
    """Move every part, and weigh each by how likely it makes the likelihood."""
    parts: list[Calibration | None] = []
    logs: list[float] = []
    for number, (weight, part) in enumerate(zip(now.weights, now.parts, strict=True)):
        more, log = part, -inf
        if part is not None and weight > 0.0:
            if (
                isinstance(now, MixedCalibration)
                and variable not in now.mixed.members[number].states
            ):
                log = (
                    log2(weight * row[0]) if row[0] else -inf
                )  # what it lacks is in its first state
            else:
                more = _moved(part, variable, row)
                if more is None:
                    return None
                log = log2(weight) + more.log2_evidence - part.log2_evidence
        parts.append(more)
        logs.append(log)
    gained, weights = weighed(logs)
    if gained == -inf:
        return None
    held, whole = times(now.likelihoods, {variable: row}), now.log2_evidence + gained
    return replace(now, likelihoods=held, log2_evidence=whole, weights=weights, parts=tuple(parts))


def _noisy(now: NoisyCalibration, variable: str, row: Sequence[float]) -> Calibration | None:
    """Move every term; their shares are of what is left now."""
    parts = [(share, part, _tables(part, variable, row)) for share, part in now.terms]
    terms = [
        (share * 2.0 ** (more.log2_evidence - part.log2_evidence), more)
        for share, part, more in parts
        if more is not None
    ]
    total = sum(share for share, _ in terms)
    if len(terms) < len(parts) or total <= UNLIKELY * max(abs(share) for share, _ in terms):
        return None
    base = terms[0][1]
    return replace(
        now,
        likelihoods=base.likelihoods,
        beliefs=base.beliefs,
        log2_evidence=now.log2_evidence + log2(total),
        given=times(now.given, {variable: row}),
        terms=tuple((share / total, part) for share, part in terms),
    )


def _tables(now: Calibration, variable: str, row: Sequence[float]) -> Calibration | None:
    chance: float = sum(map(mul, now.posterior(variable), row))
    if not isinstance(now.beliefs, Beliefs | Moved) or chance < FAINT:
        return None
    beliefs = Moved(now.tree, now.beliefs, variable, [q / chance for q in row])
    held, whole = times(now.likelihoods, {variable: row}), now.log2_evidence + log2(chance)
    return MovedCalibration(now.tree, held, beliefs, whole, beliefs, now)


class Moved(Sequence[Sequence[float]]):
    """Joint posteriors of cliques with a likelihood more: those that moved, and those before."""

    def __init__(
        self, tree: JunctionTree, before: "Beliefs | Moved", variable: str, row: Sequence[float]
    ) -> None:
        self.tree, self.before = tree, before
        self.separators: dict[int, Sequence[float]] = {}
        home = tree.homes[variable]
        by_entry = map(row.__getitem__, home.state_of)
        first = tuple(map(mul, before[home.clique], by_entry))
        self.done: dict[int, Sequence[float] | None] = {home.clique: first}
        self.towards: dict[int, int] = {}  # from each clique above the variable the next one down
        number, above = home.clique, tree.cliques[home.clique].parent
        while above >= 0:
            self.towards[above] = number
            number, above = above, tree.cliques[above].parent

    def __len__(self) -> int:
        """Count the cliques."""
        return len(self.before)

    def __getitem__(self, number: Any) -> Any:
        """Return the joint posterior of a clique."""
        moved = self.moved(number)
        return self.before[number] if moved is None else moved

    def moved(self, number: int) -> Sequence[float] | None:
        """Return the joint posterior of a clique if it moved; those on the way come first."""
        done, path = self.done, []
        while number >= 0 and number not in done:
            path.append(number)
            number = self.towards.get(number, self.tree.cliques[number].parent)
        now = done[number] if number >= 0 else None  # another part of a forest
        for each in reversed(path):
            now = done[each] = None if now is None else self._carried(now, number, each)
            number = each
        return now

    def separator(self, number: int) -> Sequence[float]:
        """Return the joint posterior of what a clique shares with the one above, [1] at a root."""
        kept = self.separators.get(number)
        if kept is None:
            clique = self.tree.cliques[number]
            above = self.moved(clique.parent)
            if above is None:
                kept = self.before.separator(number)
            else:
                kept = sum_out(above, self.tree.in_parent[number], clique.separator_size)
            self.separators[number] = kept
        return kept

    def _carried(self, moved: Sequence[float], source: int, number: int) -> Sequence[float] | None:
        """Return the joint posterior of a clique beside one that moved, None if it stays."""
        tree = self.tree
        child = number if tree.cliques[number].parent == source else source
        size, own = tree.cliques[child].separator_size, tree.cliques[child].to_separator
        new = sum_out(moved, tree.in_parent[child] if child == number else own, size)
        old = self.before.separator(child)
        if all(abs(p - q) <= STILL * q for p, q in zip(new, old)):  # noqa: B905
            return None
        ratio = [p / q if q else 0.0 for p, q in zip(new, old)]  # noqa: B905
        spread = tree.from_separator[child] if child == number else tree.over_parent[child]
        return tuple(map(mul, self.before[number], spread(ratio)))


@dataclass(frozen=True, slots=True)
class MovedCalibration(Calibration):
    """Tables with a likelihood more than `before`; what did not move is asked of that."""

    moved: Moved
    before: Calibration

    def posterior(self, variable: str) -> list[float]:
        """Return P(state | evidence) of `variable`, shape (states,), sum 1.

        It is worked out once: do not change it.
        """
        kept = self.told.get(variable)
        if kept is None:
            home = self.tree.homes[variable]
            values = self.moved.moved(home.clique)
            if values is None:
                kept = self.before.posterior(variable)
            else:
                kept = sum_out(values, home.state_of, home.states)
            self.told[variable] = kept
        return kept
