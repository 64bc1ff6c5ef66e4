"""Which checks make sense and are safe, as far as the set is known by now."""

from collections.abc import Iterable
from functools import cache

from engine.diagnosis.model import CheckText, Presumed, SetModel
from engine.inference.propagation import Calibration

MAY_WELL_BE = 0.1  # what a check presumes is at least that likely
SURELY = 0.95  # what makes a step safe is at least that likely


def proposable(
    model: SetModel, calibration: Calibration, checks: Iterable[CheckText]
) -> list[CheckText]:
    """Return those of `checks` that make sense and do no harm, given what is known."""

    @cache  # many checks presume the same
    def chance(signal: str, states: tuple[str, ...]) -> float:
        known = zip(model.signals[signal].states, calibration.posterior(signal), strict=True)
        return sum(p for state, p in known if state in states)

    def hold(presumed: Presumed, least: float) -> bool:
        return all(chance(signal, states) >= least for signal, states in presumed)

    return [
        check
        for check in checks
        if hold(check.presumes, MAY_WELL_BE) and hold(check.safe_while, SURELY)
    ]
