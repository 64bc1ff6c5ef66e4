"""One block of a set as a case leaves it: its checks with their worth, its signals with beliefs."""

from dataclasses import dataclass, replace

from engine.diagnosis.advising.advice import advised_checks
from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.steps import AdvisedCheck
from engine.diagnosis.case import Case
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present


@dataclass(frozen=True, slots=True)
class Believed:
    """A signal of a block and how likely each of its states is now, from right to worst."""

    signal: str
    states: tuple[tuple[str, float], ...]

    @property
    def right(self) -> float:
        """Return the chance that it is right."""
        return self.states[0][1]


def checks_in(model: SetModel, case: Case, block: str) -> tuple[AdvisedCheck, ...]:
    """Return the checks of a block that can still be made and make sense, by gain; ties by id.

    Findings that cannot be true together are set aside, as in the step.
    """
    now = present(model, case)
    findings, _ = possible_part(now.model, now.findings)
    answered = {each.check for each in case.all_findings()}
    inside = {
        name: check
        for name, check in model.checks.items()
        if check.block == block or name in answered  # findings are read through their checks
    }
    inner = now._replace(model=replace(now.model, checks=inside))
    return advised_checks(inner, case, calibrated(now.model, findings))


def signals_in(model: SetModel, case: Case, block: str) -> tuple[Believed, ...]:
    """Return the signals of a block with what is believed of them, the least right first."""
    model, told, _ = present(model, case)
    findings, _ = possible_part(model, told)
    known = calibrated(model, findings)
    rows = [
        Believed(name, tuple(zip(signal.states, known.posterior(name), strict=True)))
        for name, signal in model.signals.items()
        if name.partition(".")[0] == block
    ]
    return tuple(sorted(rows, key=lambda row: (round(row.right, 9), row.signal)))
