"""What one step of a diagnosis says: ranked causes, advised checks, the verdict."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from engine.diagnosis.case import Finding

WORTH_DOING = 0.8  # share of the best gain that a check must tell to be chosen for its ease
WORTH_ASKING = 0.5  # the same for what an owner is asked while no bench was made ready yet


@dataclass(frozen=True, slots=True)
class RankedCause:
    """A cause and how likely it is that it is there, alone or beside others."""

    id: str
    block: str
    title: str
    kind: str
    prior: float
    probability: float
    ways: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class AdvisedCheck:
    """A check the kit allows and that was not made yet, and what it would tell.

    `minutes` are those of the check alone, `effort_min` with getting ready for it.
    """

    id: str
    title: str
    gain_bits: float
    bits_per_min: float  # of effort
    minutes: float
    effort_min: float
    needs: tuple[str, ...]
    least_share: float  # of the best gain, from which on it may be chosen for its ease


@dataclass(frozen=True, slots=True)
class Verdict:
    """What to do; `causes` are those the verdict speaks of, likeliest first.

    `measure`, `confirm`, `act`, `no-check-left`, `clash`, `nothing-wrong`, `not-in-knowledge`.
    """

    kind: str
    causes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """Everything known after the findings of a case; `checks` in falling gain."""

    causes: tuple[RankedCause, ...]
    blocks: dict[str, float]
    checks: tuple[AdvisedCheck, ...]
    entropy_bits: float
    log2_evidence: float
    p_all_fine: float
    verdict: Verdict
    clash: tuple[Finding, ...]  # the smallest set of findings that cannot all be true
    set_aside: tuple[Finding, ...]  # those, and any more that had to go to make the rest possible
    conflict_bits: float
    doubts: tuple[tuple[Finding, float], ...]
    kinds: tuple[tuple[str, float], ...] = ()  # where that is not sure: families, likeliest first
    confirming: tuple[str, ...] = ()  # checks that would confirm or clear the leading cause


def mendable(causes: Iterable[RankedCause]) -> list[RankedCause]:
    """Return the causes that something can be done about: what happened to a set is past."""
    return [cause for cause in causes if cause.kind != "event"]


def proposed(step: Step) -> tuple[AdvisedCheck, ...]:
    """Return the checks in the order in which they are worth making.

    First those that confirm or clear a cause which is nearly sure. Then, of the checks that tell
    nearly as much as the best, and of the questions before the bench that tell half of it, the
    easiest for what they tell; then all others by gain.
    """
    most = step.checks[0].gain_bits if step.checks else 0.0
    place = {name: number for number, name in enumerate(step.confirming)}

    def key(row: AdvisedCheck) -> tuple[int, float]:
        if row.id in place:
            return 0, place[row.id]
        if row.gain_bits >= row.least_share * most:
            return 1, -round(row.bits_per_min, 9)
        return 2, -round(row.gain_bits, 9)

    return tuple(sorted(step.checks, key=lambda row: (*key(row), row.id)))


def by_minutes(step: Step) -> tuple[AdvisedCheck, ...]:
    """Return the checks in falling gain per minute of effort; ties by id."""
    return tuple(sorted(step.checks, key=lambda row: (-round(row.bits_per_min, 9), row.id)))


ORDERS: Mapping[str, Callable[[Step], tuple[AdvisedCheck, ...]]] = {
    "worth": proposed,
    "gain": lambda step: step.checks,
    "minutes": by_minutes,
}
