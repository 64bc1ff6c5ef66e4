"""Which checks make sense and are safe, as far as the set is known by now."""

from collections.abc import Iterable
from functools import cache

from engine.diagnosis.kinds import KIND
from engine.diagnosis.model import CheckText, Presumed, SetModel
from engine.inference.propagation import Calibration

MAY_WELL_BE = 0.1  # what a check presumes is at least that likely
A_KIND_IT_MAY_BE = 0.05  # a step meant for other kinds is not proposed while this one is as likely
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

    likely = likely_kinds(model, calibration)
    kinds = frozenset(kind for kind, chance in likely if chance >= A_KIND_IT_MAY_BE)
    return [
        check
        for check in checks
        if kinds <= model.same_in.get(check.id, kinds)
        and hold(check.presumes, MAY_WELL_BE)
        and hold(check.safe_while, SURELY)
    ]


def likely_kinds(model: SetModel, calibration: Calibration) -> tuple[tuple[str, float], ...]:
    """Return the families a set may be of, likeliest first; none where the kind is known."""
    if not model.kinds:
        return ()
    rows = zip(model.signals[KIND].states, calibration.posterior(KIND), strict=True)
    return tuple(sorted(rows, key=lambda row: (-round(row[1], 12), row[0])))
