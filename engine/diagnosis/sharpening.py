"""Priors sharpened by what was confirmed on sets of one's own.

A prior is taken for what so many sets have shown already, each counted set is one more: the mean
of a Dirichlet distribution after counting.

References:
    Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.4.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from engine.diagnosis.model import SetModel, past_roots
from engine.inference.mixture import MixedTree
from engine.inference.noisy_or import NoisyTree
from engine.inference.past import ChangedTree
from engine.inference.reweighing import reweighed

EQUIVALENT_SETS = 250  # estimate: how many sets the priors of the knowledge are worth


@dataclass(frozen=True, slots=True)
class OwnCounts:
    """How many sets of one kind were counted, and how often a cause was confirmed on them."""

    sets: int
    times: tuple[tuple[str, int], ...]  # cause, times; in order of the causes


def own_counts(ends: Iterable[Iterable[str]]) -> OwnCounts:
    """Return what so many sets showed; each is given by the causes confirmed on it.

    >>> own_counts([["a.x"], [], ["a.x", "b.y", "a.x"]])
    OwnCounts(sets=3, times=(('a.x', 2), ('b.y', 1)))
    """
    sets = [frozenset(each) for each in ends]
    causes = sorted(frozenset().union(*sets))
    return OwnCounts(len(sets), tuple((c, sum(c in each for each in sets)) for c in causes))


def sharpened_prior(prior: float, times: int, sets: int) -> float:
    """Return the prior of a cause that was confirmed so many times on so many sets.

    >>> round(sharpened_prior(0.02, 5, 50), 9)
    0.033333333
    """
    return (EQUIVALENT_SETS * prior + times) / (EQUIVALENT_SETS + sets)


def new_priors(model: SetModel, counts: OwnCounts) -> Mapping[str, float]:
    """Return the new prior of every cause; what a set went through is not counted, and stays."""
    times = dict(counts.times)
    return {
        name: sharpened_prior(cause.prior, times.get(name, 0), counts.sets)
        for name, cause in model.causes.items()
        if cause.kind != "event"
    }


@lru_cache(maxsize=16)
def sharpened(model: SetModel, counts: OwnCounts) -> SetModel:
    """Return the model of one kind of set with its priors sharpened; the same for the same counts.

    It is a model of its own, so that nothing worked out with the one is taken for the other.
    """
    if not counts.sets:
        return model
    return replace(with_priors(model, new_priors(model, counts)), counted_sets=counts.sets)


def with_priors(model: SetModel, priors: Mapping[str, float]) -> SetModel:
    """Return the model of one kind of set with other priors for some of its causes."""
    tree = model.tree
    assert not isinstance(tree, MixedTree | ChangedTree), "one kind of set, and without a past"
    inner = tree.inner if isinstance(tree, NoisyTree) else tree
    new = reweighed(inner, priors, past_roots(model))
    causes = {
        name: replace(cause, prior=priors.get(name, cause.prior))
        for name, cause in model.causes.items()
    }
    return replace(
        model,
        causes=causes,
        p_all_fine=model.p_all_fine * new.fine_factor,
        tree=NoisyTree(new.tree, tree.nodes) if isinstance(tree, NoisyTree) else new.tree,
    )
