"""When to stop measuring: no check of this kit tells much about any cause that leads."""

from dataclasses import dataclass, replace

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.confirming import TELLS_BITS, none_tells, suspects, told_about
from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.steps import Step
from engine.diagnosis.case import Case, Finding, full_kit
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present
from engine.inference.propagation import Calibration

LOOKED_AT = 24  # checks that tell most, of those that a wider kit would allow


@dataclass(frozen=True, slots=True)
class Help:
    """What is missing for a check that would tell more, and what that check would tell."""

    instruments: tuple[str, ...]
    lid_off: bool
    gain_bits: float

    @property
    def worth(self) -> float:
        """Bits for each thing that has to be found first."""
        return self.gain_bits / (len(self.instruments) + self.lid_off)


def is_worn_out(model: SetModel, case: Case, now: Step) -> bool:
    """Say whether no check of the kit tells a fair amount about any leading cause."""
    if now.verdict.kind == "no-check-left":
        return True
    if now.confirming:
        return False
    model, findings, calibration = _findings(model, case)
    return none_tells(model, findings, calibration, suspects(now.causes), now.checks)


def what_would_help(model: SetModel, case: Case, most: int = 3) -> tuple[Help, ...]:
    """Return what is missing for checks that tell a fair amount about a leading cause."""
    whole = replace(case, kit=full_kit(model))
    best: dict[tuple[tuple[str, ...], bool], float] = {}
    for name, gain in about_leaders(model, whole, step(model, whole, LOOKED_AT)).items():
        check = model.checks[name]
        missing = tuple(sorted(set(check.needs) - case.kit.instruments))
        key = (missing, check.lid == "off" and case.kit.lid == "on")
        best[key] = max(gain, best.get(key, 0.0))
    helps = [Help(*key, gain) for key, gain in best.items() if any(key) and gain >= TELLS_BITS]
    return tuple(sorted(helps, key=lambda each: (-round(each.worth, 9), each.instruments))[:most])


def about_leaders(model: SetModel, case: Case, now: Step) -> dict[str, float]:
    """Return the most that each advised check tells about one leading cause, in bits.

    The gain of a check is about all causes together; much of it may be about things that have
    nothing to do with the complaint.
    """
    told = dict.fromkeys((each.id for each in now.checks), 0.0)
    model, findings, calibration = _findings(model, case)
    for cause in suspects(now.causes):
        for each, bits in told_about(model, findings, calibration, cause, now.checks):
            told[each.id] = max(told[each.id], bits)
    return told


def _findings(model: SetModel, case: Case) -> tuple[SetModel, tuple[Finding, ...], Calibration]:
    """Return the set as it is now, what was found that can all be true, and what follows."""
    model, told, _ = present(model, case)
    findings, _ = possible_part(model, told)
    return model, findings, calibrated(model, findings)
