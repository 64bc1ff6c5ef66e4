"""The course of a case: what was known after each finding and repair, and how much was open."""

from dataclasses import dataclass, replace
from functools import lru_cache

from engine.diagnosis.advising.advice import ranked_causes
from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.steps import mendable
from engine.diagnosis.case import Case, Finding, Repair
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.again import just_before
from engine.diagnosis.repairing.present import present


@dataclass(frozen=True, slots=True)
class Stage:
    """What was known after a finding or a repair; neither for the stage before the first.

    `entropy_bits` is that of all causes together, 0 or more; `cause` is the likeliest that is no
    event, with its probability. After a repair both are of the set as it is then.
    """

    finding: Finding | None
    entropy_bits: float
    cause: str
    probability: float
    repair: Repair | None = None


def course(model: SetModel, case: Case) -> tuple[Stage, ...]:
    """Return the stages of a case, from the one without findings to now.

    Checks that could not be made are no stages. Each stage is one pass over the tables, kept: a
    case that grows by a finding costs one more.
    """
    earlier = course(model, just_before(case, len(case.past) - 1)) if case.past else ()
    told = case.evidence()
    so_far = [replace(case, findings=told[:count]) for count in range(len(told) + 1)]
    start, *after = [_stage(*present(model, each)[:2]) for each in so_far]
    repair = case.past[-1].repair if case.past else None
    return (*earlier, replace(start, finding=None, repair=repair), *after)


@lru_cache(maxsize=256)
def _stage(model: SetModel, findings: tuple[Finding, ...]) -> Stage:
    """Return the stage after `findings`; those that cannot be true together are set aside."""
    possible, _ = possible_part(model, findings)
    calibration = calibrated(model, possible)
    first = mendable(ranked_causes(model, calibration))[0]
    left_bits = max(calibration.entropy_bits(), 0.0)
    return Stage(findings[-1] if findings else None, left_bits, first.id, first.probability)
