"""Why this cause: what each finding weighed, and which causes together explain them all."""

from dataclasses import dataclass
from itertools import islice, pairwise
from math import log10

from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.case import Case, Finding
from engine.diagnosis.evidence import calibrated, likelihoods
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present
from engine.inference.past import assignments, branches_of, states

NEVER = 1e-300  # odds are kept finite: a cause that is ruled out stands at about -3000 decibans


@dataclass(frozen=True, slots=True)
class Reasons:
    """The weight of evidence for one cause, in decibans: 10 log10 of the odds.

    The prior and the weights of the findings, in the order they were made, add up to the
    posterior exactly. A finding weighs as much as it changed the odds when it came. After a repair
    the prior is what had been known of the set as it is by what was found before.
    """

    cause: str
    prior_decibans: float
    findings: tuple[tuple[Finding, float], ...]
    posterior_decibans: float


@dataclass(frozen=True, slots=True)
class Explanation:
    """One way in which everything may hang together: these causes are there, no other is."""

    causes: tuple[tuple[str, str], ...]  # cause, way
    probability: float


def why(model: SetModel, case: Case, cause_id: str) -> Reasons:
    """Return what each finding of a case says for or against a cause.

    Findings that cannot all be true are set aside, as in the step.

    References:
        Good, Probability and the Weighing of Evidence (1950).
    """
    model, told, _ = present(model, case)
    findings, _ = possible_part(model, told)
    levels = [
        _decibans(calibrated(model, findings[:n]).posterior(cause_id)[0])
        for n in range(len(findings) + 1)
    ]
    weights = [after - before for before, after in pairwise(levels)]
    return Reasons(cause_id, levels[0], tuple(zip(findings, weights, strict=True)), levels[-1])


def explanations(model: SetModel, case: Case, k: int) -> tuple[Explanation, ...]:
    """Return the `k` most probable joint explanations of the findings that can all be true.

    Where the kind of set is not known, one that holds in several kinds counts once, with what it
    is worth in those that were looked at.
    """
    model, told, _ = present(model, case)
    findings, _ = possible_part(model, told)
    total = calibrated(model, findings).log2_evidence
    names = list(model.causes)
    found: dict[tuple[tuple[str, str], ...], float] = {}
    best = assignments(model.tree, likelihoods(model, findings))
    ways_of_being = max(len(model.kinds), 1) * len(branches_of(model.tree))
    for assignment in islice(best, k * ways_of_being):
        ways = states(model.tree, assignment, names)
        there = tuple(
            (name, list(model.causes[name].ways)[state - 1])
            for name, state in zip(names, ways, strict=True)
            if state
        )
        found[there] = found.get(there, 0.0) + 2.0 ** (assignment.log2_joint - total)
    ranked = sorted(found.items(), key=lambda item: -item[1])  # of equals the first that came
    return tuple(Explanation(there, chance) for there, chance in ranked[:k])


def _decibans(fine: float) -> float:
    """Return 10 log10 of the odds that a cause is there, from P(fine)."""
    return 10.0 * log10(max(1.0 - fine, NEVER) / max(fine, NEVER))
