"""The course of a case: what was known after each finding, and how much was still open."""

from dataclasses import dataclass
from functools import lru_cache

from engine.diagnosis.advice import ranked_causes
from engine.diagnosis.case import Case, Finding
from engine.diagnosis.conflict import possible_part
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present
from engine.diagnosis.steps import mendable


@dataclass(frozen=True, slots=True)
class Stage:
    """What was known after a finding; `finding` is None for the stage before the first.

    `entropy_bits` is that of all causes together, 0 or more; `cause` is the likeliest that is no
    event, with its probability.
    """

    finding: Finding | None
    entropy_bits: float
    cause: str
    probability: float


def course(model: SetModel, case: Case) -> tuple[Stage, ...]:
    """Return the stages of a case, from the one without findings to now.

    Checks that could not be made are no stages. Each stage is one pass over the tables, kept: a
    case that grows by a finding costs one more.
    """
    model, findings, _ = present(model, case)
    return tuple(_stage(model, findings[:count]) for count in range(len(findings) + 1))


@lru_cache(maxsize=256)
def _stage(model: SetModel, findings: tuple[Finding, ...]) -> Stage:
    """Return the stage after `findings`; those that cannot be true together are set aside."""
    possible, _ = possible_part(model, findings)
    calibration = calibrated(model, possible)
    first = mendable(ranked_causes(model, calibration))[0]
    left_bits = max(calibration.entropy_bits(), 0.0)
    return Stage(findings[-1] if findings else None, left_bits, first.id, first.probability)
