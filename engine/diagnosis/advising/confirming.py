"""What checks tell about one cause alone: those that would confirm or clear what leads."""

from collections.abc import Iterable, Sequence

from engine.diagnosis.advising.parting import parted
from engine.diagnosis.advising.steps import AdvisedCheck, RankedCause, mendable
from engine.diagnosis.case import Finding
from engine.diagnosis.frequencies.advising import told_of_frequencies
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.gain import information_gain
from engine.inference.propagation import Calibration
from engine.inference.supposing import supposed

TELLS_BITS = 0.05  # about the one cause; less does not confirm anything
WORTH_CONFIRMING = 0.5  # share of what the best tells about it, to be chosen for its ease
SUSPECTS = 8  # causes that may still turn out to be the one

Told = list[tuple[AdvisedCheck, float]]


def confirming(
    model: SetModel,
    findings: Sequence[Finding],
    now: Calibration,
    cause: RankedCause,
    checks: Sequence[AdvisedCheck],
) -> tuple[str, ...]:
    """Return the checks that tell a fair amount of whether `cause` is there.

    First those that tell half of the best, most a minute of effort first, then the others so.
    """
    told = [pair for pair in told_about(model, findings, now, cause, checks) if _is_fair(pair[1])]
    most = max((bits for _, bits in told), default=0.0)

    def key(pair: tuple[AdvisedCheck, float]) -> tuple[bool, float, str]:
        each, bits = pair
        return bits < WORTH_CONFIRMING * most, -round(bits / each.effort_min, 9), each.id

    return tuple(each.id for each, _ in sorted(told, key=key))


def none_tells(
    model: SetModel,
    findings: Sequence[Finding],
    now: Calibration,
    causes: Iterable[RankedCause],
    checks: Sequence[AdvisedCheck],
) -> bool:
    """Say whether no check tells a fair amount about any of `causes`."""
    told = (told_about(model, findings, now, each, checks) for each in causes)
    return not any(_is_fair(bits) for rows in told for _, bits in rows)


def suspects(causes: Iterable[RankedCause]) -> list[RankedCause]:
    """Return the leading causes that something can be done about."""
    return [cause for cause in mendable(causes) if 0.0 < cause.probability < 1.0][:SUSPECTS]


def told_about(
    model: SetModel,
    findings: Sequence[Finding],
    now: Calibration,
    cause: RankedCause,
    checks: Sequence[AdvisedCheck],
) -> Told:
    """Return what each check tells about one cause, there or not, in bits.

    About one cause a check tells no more than about all together, so those that tell less than a
    fair amount about all are left out.
    """
    fair = [(each, model.checks[each.id]) for each in checks if _is_fair(each.gain_bits)]
    if not fair:
        return []
    there = supposed(model.tree, now, cause.id, [0.0, *(1.0 for _ in cause.ways)])
    p = cause.probability
    read = [check for _, check in fair if check.at is not None]
    of_all = {each.id: each.gain_bits for each, _ in fair}
    bits = told_of_frequencies(model, findings, (now, there, p), read, of_all) if read else {}
    return [
        (each, bits[check.id] if check.at is not None else about(cause, check, now, there))
        for each, check in fair
    ]


def about(cause: RankedCause, check: CheckText, now: Calibration, there: Calibration) -> float:
    """Return what a check tells about one cause, there or not, in bits."""
    p = cause.probability
    return information_gain((p, 1.0 - p), parted(check, p, now, there))


def _is_fair(bits: float) -> bool:
    return bits >= TELLS_BITS
