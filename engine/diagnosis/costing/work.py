"""What trying a repair costs the person at the bench, in minutes."""

from collections.abc import Callable, Collection
from dataclasses import dataclass

from engine.diagnosis.advising.effort import effort, lid_is_off
from engine.diagnosis.case import Case
from engine.diagnosis.model import CauseText, CheckText, Mending, SetModel
from engine.inference.repairs import Trial


@dataclass(frozen=True, slots=True)
class Look:
    """A check straight at a cause: its effort, and how often it sees it where it is and is not."""

    check: str
    effort_min: float
    hit: float
    false_alarm: float


@dataclass(frozen=True, slots=True)
class Work:
    """What putting a cause right takes, all told, and a look at it beforehand where there is one.

    `does_it` is the chance that the trouble is gone then, if this was behind it.
    """

    cause: str
    minutes: float
    does_it: float
    look: Look | None = None

    def trial(self, part: float, last_resort: float) -> tuple[Trial, Look | None]:
        """Return the cheaper way of trying it, were it the only thing to try: blind, or by a look.

        `part` is the chance that it is behind the trouble. What a look overlooks stays wrong.
        """
        blind = Trial(self.cause, part * self.does_it, self.minutes)
        if self.look is None:
            return blind, None
        look, sure = self.look, self.look.hit - self.look.false_alarm
        seen = Trial(
            self.cause,
            blind.p * look.hit,
            look.effort_min + look.false_alarm * self.minutes,
            part * sure * self.minutes,
        )
        saved = blind.cost - seen.cost - seen.found_cost - (blind.p - seen.p) * last_resort
        return (seen, look) if saved > 0.0 else (blind, None)


def works(
    model: SetModel, mending: Mending, case: Case, open_: Collection[str]
) -> Callable[[CauseText], Work | None]:
    """Return what tells what a repair takes now; None where it cannot be made.

    To work and part come the lid where it is still on, the checks that have to be made before
    anybody acts on the cause, and trying whether the trouble is gone. What needs the lid off, or a
    check the kit does not allow, cannot be made. Looks are among the checks that are `open_`.
    """
    minutes = effort(model, case)
    lid_min = 0.0 if lid_is_off(model, case) else model.handling.lid_min
    made = {finding.check for finding in case.findings if finding.is_evidence}
    looks: dict[str, Look] = {}
    for check in (model.checks[name] for name in open_):
        if check.looks_at in model.causes:
            look = _look(check, minutes(check))
            before = looks.get(check.looks_at)
            if before is None or _keener(look) > _keener(before):
                looks[check.looks_at] = look

    def needed(cause: CauseText) -> Work | None:
        first = [model.checks[one] for one in cause.prove_first if one in model.checks]
        first = [check for check in first if check.id not in made]
        is_shut = cause.inside and case.kit.lid != "off"
        if cause.does_it == 0.0 or is_shut or not all(map(case.kit.allows, first)):
            return None
        before = sum(map(minutes, first)) + (lid_min if cause.inside else 0.0)
        total = before + cause.work_min + cause.part_min + mending.prove_min
        return Work(cause.id, total, cause.does_it, looks.get(cause.id))

    return needed


def _look(check: CheckText, effort_min: float) -> Look:
    """Return a check as a look: what comes out likelier with the cause there counts as seen."""
    fine, *there = check.channel.rows
    columns = [(q, sum(ps) / len(there)) for q, *ps in zip(fine, *there, strict=True)]
    seen = [(q, p) for q, p in columns if p > q]
    return Look(check.id, effort_min, sum(p for _, p in seen), sum(q for q, _ in seen))


def _keener(look: Look) -> tuple[float, str]:
    """Return what the better of two looks has more of."""
    return (look.hit - look.false_alarm) / look.effort_min, look.check
