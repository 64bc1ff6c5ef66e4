"""What somebody at the bench has before the next check is chosen."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

from engine.assessing.manual import Manual
from engine.diagnosis.advising.effort import effort
from engine.diagnosis.advising.presuming import proposable
from engine.diagnosis.advising.steps import Step
from engine.diagnosis.case import Case
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.repairing.present import present


@dataclass(frozen=True)
class Moment:
    """The set as far as it is known, and what the tool says of it; `seed` is for dice."""

    model: SetModel
    manual: Manual
    case: Case
    answer: Step
    seed: str

    @cached_property
    def open(self) -> Mapping[str, CheckText]:
        """Return the checks that can be made now, in order of knowledge.

        Each frequency is one check, on the first channel of its list.
        """
        now = present(self.model, self.case)
        allowed = [
            check
            for check in now.model.checks.values()
            if check.id not in now.made and self.case.kit.allows(check)
        ]
        asked = {_read_once(self.model.checks[name]) for name in now.made}
        first: dict[str, CheckText] = {}
        for check in allowed:
            if check.at is None or _read_once(check) not in asked:
                first.setdefault(_read_once(check), check)
        calibration = calibrated(now.model, now.findings)
        return {each.id: each for each in proposable(now.model, calibration, first.values())}

    @cached_property
    def minutes(self) -> Callable[[CheckText], float]:
        """Return what tells the effort of a check now, in minutes."""
        return effort(self.model, self.case)


def _read_once(check: CheckText) -> str:
    """Return one name for a frequency on all its channels, else the check's own."""
    return check.at.check if check.at else check.id
