"""A set that was here before: what its own past does to the priors of today.

How often a cause comes in a set is a Poisson process whose rate is that of the knowledge times a
factor of the set's own: sets differ in use, damp and hands. Before anything is known of a set that
factor has a gamma distribution of mean 1; what was confirmed on the set before makes it another.
A part that was replaced is new: its hours begin then.

References:
    Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.6 (Poisson model, gamma prior).
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from math import expm1, log1p

from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import CauseText, SetModel, past_roots
from engine.inference.noisy_or import NoisyTree
from engine.inference.propagation import calibrate
from engine.inference.reweighing import restated, reweighed
from engine.inference.tree import JunctionTree

SERVICE_MONTHS = 120.0  # estimate: the ten years that the hours of the priors stand for
ALIKE = 1.0  # estimate: shape of the gamma; the smaller, the more sets differ from each other
NEWEST = 1.0 / SERVICE_MONTHS  # share of its hours that a part replaced lately has at least
MOST_EVENTS = 0.9  # what a set may have been through is never taken for surer than this


@dataclass(frozen=True, slots=True)
class Visit:
    """An earlier case of this set.

    `months` ago, 0 or more; `causes` were confirmed, `replaced` are those whose part is new since.
    """

    months: float
    causes: tuple[str, ...] = ()
    replaced: tuple[str, ...] = ()


History = tuple[Visit, ...]


def returned_prior(prior: float, times: float, new_share: float = 1.0) -> float:
    """Return the prior of a cause on a set that had it before.

    Args:
        prior: of the knowledge, in (0, 1).
        times: how often it was there, 0 or more; expected times where that is not sure.
        new_share: hours of the part since it was replaced, over those of the prior; in (0, 1].

    >>> round(returned_prior(0.02, 0.0), 3), round(returned_prior(0.02, 1.0), 3)
    (0.02, 0.039)
    >>> round(returned_prior(0.02, 1.0, 0.1), 4)
    0.004
    """
    if not times and new_share == 1.0:
        return prior
    expected = -log1p(-prior)
    factor = (ALIKE + times) / (ALIKE + expected) if times else 1.0
    return -expm1(-expected * factor * new_share)


def returned_priors(model: SetModel, history: History) -> dict[str, float]:
    """Return the new prior of every cause that was confirmed or whose part was replaced."""
    known = {name: cause for name, cause in model.causes.items() if cause.kind != "event"}
    times = {name: sum(name in visit.causes for visit in history) for name in known}
    ages: dict[str, float] = {}
    for visit in history:
        for name in visit.replaced:
            ages[name] = min(visit.months, ages.get(name, visit.months))
    shares = {name: min(max(age / SERVICE_MONTHS, NEWEST), 1.0) for name, age in ages.items()}
    return {
        name: returned_prior(cause.prior, times[name], shares.get(name, 1.0))
        for name, cause in known.items()
        if times[name] or name in shares
    }


def event_chances(model: SetModel, history: History) -> dict[str, list[float]]:
    """Return new chances for each root of what a set went through.

    What was confirmed at each visit tells how likely each event was behind it; those chances add
    up to expected times. So a fault that came twice raises what is usually behind it.
    """
    chances = {}
    for root in past_roots(model):
        before = calibrated(model, ()).posterior(root)
        seen = [_behind(model, root, visit) for visit in history if _known(model, visit)]
        times = [sum(column) for column in zip(*seen, strict=True)] or [0.0] * len(before)
        new = [returned_prior(p, n) for p, n in zip(before[1:], times[1:], strict=True)]
        scale = min(1.0, MOST_EVENTS / sum(new))
        chances[root] = [1.0 - scale * sum(new), *(scale * p for p in new)]
    return chances


def _known(model: SetModel, visit: Visit) -> list[str]:
    return [name for name in visit.causes if name in model.causes]


def _behind(model: SetModel, root: str, visit: Visit) -> list[float]:
    """Return P(state of the root | what was confirmed at a visit)."""
    states = {name: len(model.causes[name].ways) for name in _known(model, visit)}
    held = {name: [0.0, *[1.0] * ways] for name, ways in states.items()}
    return calibrate(_tables(model), held).posterior(root)


def _tables(model: SetModel) -> JunctionTree:
    tree = model.tree
    inner = tree.inner if isinstance(tree, NoisyTree) else tree
    assert isinstance(inner, JunctionTree), "one kind of set, and without repairs"
    return inner


@lru_cache(maxsize=16)
def returned(model: SetModel, history: History) -> SetModel:
    """Return the model of a set with this past; the same for the same past.

    It is a model of its own, so that nothing worked out with the one is taken for the other.
    """
    priors = returned_priors(model, history)
    if not priors:
        return model
    new = reweighed(_tables(model), priors, past_roots(model))
    tables, fine = new.tree, new.fine_factor
    for root, chances in event_chances(model, history).items():
        again = restated(tables, root, chances)
        tables, fine = again.tree, fine * again.fine_factor
    return replace(
        model,
        causes=_with_priors(model.causes, tables),
        p_all_fine=model.p_all_fine * fine,
        tree=NoisyTree(tables, model.tree.nodes) if isinstance(model.tree, NoisyTree) else tables,
    )


def _with_priors(causes: Mapping[str, CauseText], tables: JunctionTree) -> dict[str, CauseText]:
    """Return the causes, each with its chance before anything is found in these tables."""
    rest = calibrate(tables, {})
    return {
        name: replace(cause, prior=1.0 - rest.posterior(name)[0]) for name, cause in causes.items()
    }
