"""The set as it is: a model whose tree carries the past, and the findings that speak of now.

Everything that reasons about a case begins here; without repairs it is the model itself and all
findings of the case.
"""

from functools import lru_cache
from typing import NamedTuple

from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.case import Case, Finding, Stretch
from engine.diagnosis.evidence import likelihoods
from engine.diagnosis.frequencies.fitting import fitted
from engine.diagnosis.kinds import KIND
from engine.diagnosis.model import SetModel, past_roots, with_tree
from engine.inference.changing import Change, Roots, changed, touched


class Present(NamedTuple):
    """A model with its past, what speaks of the set as it is, and checks not to be asked again."""

    model: SetModel
    findings: tuple[Finding, ...]
    made: frozenset[str]


def present(model: SetModel, case: Case) -> Present:
    """Return what a case says of the set as it is, with the counter of its kit.

    A finding from before a repair that hangs on the repaired cause is in the model's past, and its
    check may be made again; every other one stands as if it had been made since.
    """
    model = fitted(model, case.kit)
    made = frozenset(finding.check for finding in case.findings)
    if not case.past:
        return Present(model, case.evidence(), made)
    before = after_repairs(model, case.past)
    told = _latest(before.findings, case.evidence())
    return Present(before.model, told, before.made | made)


@lru_cache(maxsize=32)
def after_repairs(model: SetModel, past: tuple[Stretch, ...]) -> Present:
    """Return the set right after the last repair of `past`."""
    if not past:
        return Present(model, (), frozenset())
    start, last = after_repairs(model, past[:-1]), past[-1]
    evidence = tuple(finding for finding in last.findings if finding.is_evidence)
    known, _ = possible_part(start.model, _latest(start.findings, evidence))
    ways = what_it_touches(model, last.repair.cause)
    reach = frozenset({last.repair.cause}).union(*ways)
    moved = tuple(f for f in known if reach & likelihoods(model, [f]).keys())
    standing = tuple(finding for finding in known if finding not in moved)
    settled = tuple(stretch.repair.is_settled for stretch in past[:-1])
    change = Change(last.repair.cause, ways, roots_of(model), settled)
    tree = changed(
        start.model.tree, likelihoods(model, moved), likelihoods(model, standing), change
    )
    made = start.made | {finding.check for finding in last.findings}
    open_again = {check for check in made if model.checks[check].looks_at in reach}
    cannot = {finding.check for finding in last.findings if not finding.is_evidence}
    again = {finding.check for finding in moved} | (open_again - cannot)
    return Present(with_tree(model, tree), standing, made - again)


def _latest(standing: tuple[Finding, ...], new: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return findings of two times; of a check that was made again the new one."""
    again = {finding.check for finding in new}
    return (*(finding for finding in standing if finding.check not in again), *new)


@lru_cache(maxsize=64)
def what_it_touches(model: SetModel, cause: str) -> tuple[frozenset[str], ...]:
    """Return for each way of a cause the signals that are different when it is there."""
    return touched(model.tree, cause, roots_of(model))


@lru_cache(maxsize=8)
def roots_of(model: SetModel) -> Roots:
    """Return the roots of a set; its past and its kind are common to its causes."""
    pasts = past_roots(model)
    single = tuple(cause.id for cause in model.causes.values() if cause.kind != "event")
    return Roots(single, (*pasts, KIND) if model.kinds else pasts)
