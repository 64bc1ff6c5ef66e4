"""Findings as likelihoods on the signals they look at, and the tree they calibrate."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import inf, log2
from operator import mul

from engine.diagnosis.case import Finding
from engine.diagnosis.frequencies.checks import hz_read
from engine.diagnosis.frequencies.likelihood import likelihood as frequency_likelihood
from engine.diagnosis.frequencies.model import FREQUENCIES, Reading
from engine.diagnosis.kinds import KIND
from engine.diagnosis.model import SetModel
from engine.inference.blending import log2_sum
from engine.inference.likelihoods import Likelihoods
from engine.inference.past import ChangedTree, branches_of, calibrate, fine_chance, times
from engine.inference.propagation import Calibration

GHOST = 0.02  # chance of a number on the counter where there is nothing to count: pick-up, a beat


def likelihood(model: SetModel, finding: Finding) -> Sequence[float]:
    """Return P(finding | state) of what a check looks at; a density for a reading."""
    check = model.checks[finding.check]
    if check.at is not None:
        assert model.frequencies is not None
        return frequency_likelihood(model.frequencies, frequency_readings(model, [finding]))
    if check.meter is not None:
        assert finding.value is not None
        return check.meter.likelihood(finding.value)
    column = list(check.outcomes).index(str(finding.outcome))
    return [row[column] for row in check.channel.rows]


def is_usual(model: SetModel, finding: Finding) -> bool:
    """Whether a named outcome is what a set in order most likely gives."""
    return finding.outcome == model.checks[finding.check].likeliest()


def likelihoods(model: SetModel, findings: Sequence[Finding]) -> dict[str, Sequence[float]]:
    """Return one likelihood vector for each signal that was looked at.

    Readings of frequencies make one vector together: offsets and the counter's error are common
    to them all, so that they are no independent evidence.
    """
    together: dict[str, Sequence[float]] = {}
    for finding in findings:
        for signal, vector in _told(model, finding):
            before = together.get(signal)
            together[signal] = (
                [a * b for a, b in zip(before, vector, strict=True)] if before else vector
            )
    readings = frequency_readings(model, findings)
    if readings and model.frequencies is not None:
        together[FREQUENCIES] = frequency_likelihood(model.frequencies, readings)
    return together


def _told(model: SetModel, finding: Finding) -> Iterator[tuple[str, Sequence[float]]]:
    """Yield what a finding says of one signal after the other.

    A frequency proves by being there at all that there is something to count; what it is comes
    with all others.
    """
    check = model.checks[finding.check]
    if not finding.is_evidence:
        return
    if check.at is None:
        yield check.looks_at, likelihood(model, finding)
        return
    for signal, states in check.presumes:
        rows = model.signals[signal].states
        yield signal, [1.0 if state in states else GHOST for state in rows]


def frequency_readings(model: SetModel, findings: Sequence[Finding]) -> tuple[Reading, ...]:
    """Return the findings that are frequencies, as readings in Hz."""
    readings = []
    for finding in findings:
        check = model.checks[finding.check]
        if check.at is not None and finding.value is not None:
            hz = hz_read(check, finding.value)
            readings.append(Reading(check.at.point, check.at.mode, check.at.channel, hz))
    return tuple(readings)


def calibrated(model: SetModel, findings: tuple[Finding, ...]) -> Calibration:
    """Return the calibrated tree; kept, because a case grows by one finding at a time."""
    keeps = _calibrated_branches if isinstance(model.tree, ChangedTree) else _calibrated
    return keeps(model, findings)


def forget_calibrations() -> None:
    """Let go of every calibrated tree, so that the next is worked out anew."""
    _calibrated.cache_clear()
    _calibrated_branches.cache_clear()


@lru_cache(maxsize=128)
def _calibrated(model: SetModel, findings: tuple[Finding, ...]) -> Calibration:
    return calibrate(model.tree, likelihoods(model, findings))


@lru_cache(maxsize=8)
def _calibrated_branches(model: SetModel, findings: tuple[Finding, ...]) -> Calibration:
    """Return the same of a set with a past, fewer kept: a dozen branches may take 15 MB."""
    return calibrate(model.tree, likelihoods(model, findings))


def p_all_fine(model: SetModel, findings: tuple[Finding, ...], calibration: Calibration) -> float:
    """Return P(no cause is there, no event happened | findings).

    Then every signal is in its first state, so this is the prior of that, times the likelihood of
    every finding in the first state of what it looks at, over P(findings).
    """
    held = likelihoods(model, findings)
    logs = [
        branch.log2_start + _log2_all_fine(model, times(branch.held, held))
        for branch in branches_of(model.tree)
    ]
    return float(2.0 ** min(log2_sum(logs) - calibration.log2_evidence, 0.0))


def _log2_all_fine(model: SetModel, held: Likelihoods) -> float:
    """Return log2 of P(what is held, no cause is there), -inf when that cannot be."""
    kinds = held.get(KIND) if model.kinds else None
    start = sum(map(mul, model.fine_by_kind, kinds)) if kinds else model.p_all_fine
    logs = [log2(start)]
    for variable, vector in held.items():
        if kinds is not None and variable == KIND:
            continue
        chance = fine_chance(model.tree, variable, vector)
        if chance <= 0.0:
            return -inf
        logs.append(log2(chance))
    return sum(logs)
