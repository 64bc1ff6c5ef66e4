"""Findings that sit badly together, and findings that cannot all be true.

References:
    Jensen, Chamberlain, Nordahl & Jensen, Analysis in HUGIN of data conflict, UAI 1990.
"""

from collections.abc import Sequence
from itertools import combinations
from math import inf, log2

from engine.diagnosis.case import Finding
from engine.diagnosis.evidence import calibrated, likelihood, likelihoods
from engine.diagnosis.model import SetModel
from engine.inference.past import log2_evidence


def conflict_bits(model: SetModel, findings: tuple[Finding, ...]) -> float:
    """Return log2 of (the product of each finding's probability over that of all together).

    Findings of one fault support each other: the figure is negative. Above 0 they are together
    less likely than if they had nothing to do with each other. What was found before a repair is
    taken as known.
    """
    together = calibrated(model, findings).log2_evidence - calibrated(model, ()).log2_evidence
    alone = sum(log2(_alone(model, finding)) for finding in findings)
    return alone - together if findings else 0.0


def doubts(model: SetModel, findings: tuple[Finding, ...]) -> list[tuple[Finding, float]]:
    """Return for each finding how much less likely the others make it, in bits; worst first.

    P(finding | others) needs no pass of its own: the posterior of its signal holds the finding as
    a factor, so it is one over the mean of 1 / likelihood. Where that is 0 for a state, a pass up
    without the finding tells it.
    """
    calibration = calibrated(model, findings)
    rows = []
    for finding in findings:
        if model.checks[finding.check].at is not None:
            continue
        vector = likelihood(model, finding)
        looks_at = model.checks[finding.check].looks_at
        if all(vector):
            posterior = calibration.posterior(looks_at)
            given_others = 1.0 / sum(p / q for p, q in zip(posterior, vector, strict=True))
        else:
            others = tuple(other for other in findings if other is not finding)
            before = log2_evidence(model.tree, likelihoods(model, others))
            given_others = 2.0 ** (calibration.log2_evidence - before)
        rows.append((finding, log2(_alone(model, finding) / given_others)))
    rows += _doubted_frequencies(model, findings)
    return sorted(rows, key=lambda row: (-round(row[1], 9), row[0].check))


def _doubted_frequencies(
    model: SetModel, findings: tuple[Finding, ...]
) -> list[tuple[Finding, float]]:
    """Return the same for readings of frequencies, which are one factor together.

    Each is looked at by itself only where together they are less likely than one by one.
    """
    read = [finding for finding in findings if model.checks[finding.check].at is not None]
    if not read:
        return []
    together = calibrated(model, findings).log2_evidence
    alone = {finding.check: log2(_alone(model, finding)) for finding in read}
    rest = [finding for finding in findings if finding not in read]
    if together - log2_evidence(model.tree, likelihoods(model, rest)) > sum(alone.values()):
        return [(finding, 0.0) for finding in read]
    rows = []
    for finding in read:
        others = tuple(other for other in findings if other is not finding)
        before = log2_evidence(model.tree, likelihoods(model, others))
        rows.append((finding, alone[finding.check] - (together - before)))
    return rows


def smallest_clash(model: SetModel, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the smallest set of findings that cannot all be true; of equals the earliest.

    A finding whose likelihood is nowhere 0 cannot make anything impossible, so only the others
    are looked at.
    """
    hard = [finding for finding in findings if not all(likelihood(model, finding))]
    for size in range(1, len(hard) + 1):
        for some in combinations(hard, size):
            if not _possible(model, some):
                return some
    return ()


def possible_part(
    model: SetModel, findings: tuple[Finding, ...]
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """Return the findings that can be true together, and the smallest set that clashes, if any.

    Clashing findings are set aside, one smallest set after the other.
    """
    first: tuple[Finding, ...] = ()
    while not calibrated(model, findings).is_possible:
        clash = smallest_clash(model, findings)
        assert clash, "findings whose likelihoods are nowhere 0 are possible together"
        first = first or clash
        findings = tuple(finding for finding in findings if finding not in clash)
    return findings, first


def _possible(model: SetModel, findings: Sequence[Finding]) -> bool:
    return log2_evidence(model.tree, likelihoods(model, findings)) > -inf


def _alone(model: SetModel, finding: Finding) -> float:
    """Return the probability of a finding when nothing else is known."""
    if model.checks[finding.check].at is not None:
        before = calibrated(model, ()).log2_evidence
        return float(2.0 ** (calibrated(model, (finding,)).log2_evidence - before))
    prior = calibrated(model, ()).posterior(model.checks[finding.check].looks_at)
    return sum(p * q for p, q in zip(prior, likelihood(model, finding), strict=True))
