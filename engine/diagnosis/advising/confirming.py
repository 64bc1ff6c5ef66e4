"""Checks about one cause alone: those that would confirm or clear what leads."""

from collections.abc import Sequence

from engine.diagnosis.advising.parting import parted
from engine.diagnosis.advising.steps import AdvisedCheck, RankedCause
from engine.diagnosis.case import Finding
from engine.diagnosis.evidence import likelihoods
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.gain import information_gain
from engine.inference.past import calibrate
from engine.inference.propagation import Calibration

TELLS_BITS = 0.05  # about the one cause; less does not confirm anything


def confirming(
    model: SetModel,
    findings: Sequence[Finding],
    now: Calibration,
    cause: RankedCause,
    checks: Sequence[AdvisedCheck],
) -> tuple[str, ...]:
    """Return the checks that tell most, a minute of effort, of whether `cause` is there.

    About one cause a check tells no more than about all together, so those that tell less than a
    fair amount about all are not looked at, nor are frequencies: they look at all oscillators.
    """
    fair = [each for each in checks if each.gain_bits >= TELLS_BITS]
    plain = [each for each in fair if model.checks[each.id].at is None]
    there = with_cause(model, findings, cause) if plain else now
    told = [(each, about(cause, model.checks[each.id], now, there)) for each in plain]
    worth = [(each, bits) for each, bits in told if bits >= TELLS_BITS]
    worth.sort(key=lambda pair: (-round(pair[1] / pair[0].effort_min, 9), pair[0].id))
    return tuple(each.id for each, _ in worth)


def with_cause(model: SetModel, findings: Sequence[Finding], cause: RankedCause) -> Calibration:
    """Return what follows from the findings if a cause is there, in whichever way."""
    held = likelihoods(model, tuple(findings))
    before = held.get(cause.id, [1.0] * (1 + len(cause.ways)))
    return calibrate(model.tree, {**held, cause.id: [0.0, *before[1:]]})


def about(cause: RankedCause, check: CheckText, now: Calibration, there: Calibration) -> float:
    """Return what a check tells about one cause, there or not, in bits."""
    p = cause.probability
    return information_gain((p, 1.0 - p), parted(check, p, now, there))
