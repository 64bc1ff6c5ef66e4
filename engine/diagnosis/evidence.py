"""Findings as likelihoods on the signals they look at, and the tree they calibrate."""

from collections.abc import Sequence
from functools import lru_cache

from engine.diagnosis.case import Finding
from engine.diagnosis.model import SetModel
from engine.inference.propagation import Calibration, calibrate


def likelihood(model: SetModel, finding: Finding) -> list[float]:
    """Return P(finding | state) of the signal a check looks at; a density for a reading."""
    check = model.checks[finding.check]
    if check.meter is not None:
        assert finding.value is not None
        return check.meter.likelihood(finding.value)
    column = list(check.outcomes).index(str(finding.outcome))
    return [row[column] for row in check.channel.rows]


def likelihoods(model: SetModel, findings: Sequence[Finding]) -> dict[str, list[float]]:
    """Return one likelihood vector for each signal that was looked at."""
    together: dict[str, list[float]] = {}
    for finding in findings:
        if not finding.is_evidence:
            continue
        vector = likelihood(model, finding)
        signal = model.checks[finding.check].looks_at
        before = together.get(signal)
        together[signal] = (
            [a * b for a, b in zip(before, vector, strict=True)] if before else vector
        )
    return together


@lru_cache(maxsize=128)
def calibrated(model: SetModel, findings: tuple[Finding, ...]) -> Calibration:
    """Return the calibrated tree; kept, because a case grows by one finding at a time."""
    return calibrate(model.tree, likelihoods(model, findings))
