"""When to stop measuring: no check of this kit tells much about any cause that leads."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.confirming import about, with_cause
from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.steps import RankedCause, Step, mendable
from engine.diagnosis.case import Case, full_kit
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present

LEADING = 8  # causes that may still turn out to be the one
LOOKED_AT = 24  # checks that tell most, of those that a wider kit would allow
FAIR_BITS = 0.05  # below it eyes and ears end: see DEVELOPERS.md


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
    return all(gain < FAIR_BITS for _check, gain in _gains(model, case, now))


def what_would_help(model: SetModel, case: Case, most: int = 3) -> tuple[Help, ...]:
    """Return what is missing for checks that tell a fair amount about a leading cause."""
    whole = replace(case, kit=full_kit(model))
    best: dict[tuple[tuple[str, ...], bool], float] = {}
    for name, gain in about_leaders(model, whole, step(model, whole, LOOKED_AT)).items():
        check = model.checks[name]
        missing = tuple(sorted(set(check.needs) - case.kit.instruments))
        key = (missing, check.lid == "off" and case.kit.lid == "on")
        best[key] = max(gain, best.get(key, 0.0))
    helps = [Help(*key, gain) for key, gain in best.items() if any(key) and gain >= FAIR_BITS]
    return tuple(sorted(helps, key=lambda each: (-round(each.worth, 9), each.instruments))[:most])


def about_leaders(model: SetModel, case: Case, now: Step) -> dict[str, float]:
    """Return the most that each advised check tells about one leading cause, in bits."""
    told = dict.fromkeys((each.id for each in now.checks), 0.0)
    for check, gain in _gains(model, case, now):
        told[check] = max(told[check], gain)
    return told


def _gains(model: SetModel, case: Case, now: Step) -> Iterator[tuple[str, float]]:
    """Yield what checks tell about one leading cause after the other, there or not, in bits.

    The gain of a check is about all causes together; much of it may be about things that have
    nothing to do with the complaint. About one cause it is never more, so a check that tells less
    than a fair amount about all is not looked at. A reading of a frequency is taken at its whole
    gain.
    """
    model, told, _ = present(model, case)
    findings, _ = possible_part(model, told)
    calibration = calibrated(model, findings)
    fair = [each for each in now.checks if each.gain_bits >= FAIR_BITS]
    yield from ((each.id, each.gain_bits) for each in fair if model.checks[each.id].at is not None)
    plain = [check for each in fair if (check := model.checks[each.id]).at is None]
    for cause in leaders(now) if plain else ():
        there = with_cause(model, findings, cause)
        yield from ((check.id, about(cause, check, calibration, there)) for check in plain)


def leaders(now: Step) -> Sequence[RankedCause]:
    """Return the leading causes that something can be done about."""
    return [cause for cause in mendable(now.causes) if 0.0 < cause.probability < 1.0][:LEADING]
