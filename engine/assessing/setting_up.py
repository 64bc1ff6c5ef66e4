"""Setting up a simulated set by following its sheet, with readings out of its true state."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from engine.assessing.adjustments import Adjustable, within
from engine.assessing.at_work import Work, spent
from engine.diagnosis.advising.effort import effort
from engine.diagnosis.case import Case, Kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.settings import WantedText
from engine.setting_up.guiding import Standing, Visit, progress, with_evidence
from engine.setting_up.sheet import Step, check_of, put_right, steps
from engine.setting_up.verdict import Entry, verdict

MOST_ROUNDS = 6  # visits for each step of the sheet, before somebody gives it up
EVEN, UNEVEN = "1; 1", "1; 10"  # readings that are to be alike, in any unit
MIDDLING, LESS, MORE = "1", "0.5", "2"  # of a best place whose reading is no check, in any unit


@dataclass(frozen=True, slots=True)
class Place:
    """One adjustment: the set it is in, and the set with the whole sheet where it belongs."""

    now: Adjustable
    fine: Adjustable
    step: Step

    @property
    def is_out(self) -> bool:
        """Whether the adjustment itself is off."""
        return bool(self.now.bench.truth[self.step.id])


def set_up(work: Work, is_last: bool) -> tuple[Work, tuple[Standing, ...]]:
    """Return a set that was set up as far as that goes, and what would not come right.

    The sheet is followed, only what is needed, until all of it holds or a step is stuck: then comes
    the search for what is behind it. The last time what is stuck is left so, and the rest done.
    """
    model, case = work.shop.model, work.case
    sheet = steps(model, case, (*put_right(case), *work.to_set))
    on_sheet = {step.id for step in sheet}
    visits = [one for one in work.visits if one.adjustment in on_sheet and not one.gave_up]
    done = work.done
    for _ in range(MOST_ROUNDS * len(sheet)):
        now = progress(model, case, sheet, visits)
        if now.next is None or (now.stuck and not is_last):
            break
        step = now.next.step
        visit, adjusted = _visited(model, case.kit, work.set, step, tuple(on_sheet))
        visits.append(visit)
        minutes = step_min(model, work.case, step) if visit.entries else 0.0
        done = replace(spent(done, "setting_up", minutes), visits=done.visits + 1)
        work = replace(work, set=adjusted)
    stuck = progress(model, case, sheet, visits).stuck
    done = replace(done, stuck=done.stuck + len(stuck))
    return replace(work, visits=tuple(visits), done=done), stuck


def upset(work: Work, repairs: tuple[str, ...]) -> Work:
    """Return the work with what these repairs moved; readings of that are of no use any more."""
    text, now = work.shop.model.setting_up, work.set
    moved: set[str] = set()
    for cause in repairs:
        now = now.upset_by(cause)
        moved |= {cause, *(text.upsets.get(cause, ()) if text else ())}
    visits = tuple(one for one in work.visits if one.adjustment not in moved)
    return replace(work, set=now, visits=visits)


def with_stuck(work: Work, stuck: tuple[Standing, ...]) -> Work:
    """Return the work with what would not come right as evidence, and watched from now on."""
    case, checks = work.case, list[str]()
    for standing in stuck:
        visit = next(v for v in reversed(work.visits) if v.adjustment == standing.step.id)
        case = with_evidence(work.shop.model, case, standing.step, visit)
        checks += [check.id for check in looked_at(work.shop.model, standing.step)]
    return replace(work, case=case, since=0, blind=0).watching(checks)


def step_min(model: SetModel, case: Case, step: Step) -> float:
    """Return the minutes of one visit: the step's own, else those of the check it is read with."""
    check = check_of(model, step.setting)
    if step.setting.minutes is not None or check is None:
        return (step.setting.minutes or 0.0) + model.handling.each_min
    return effort(model, case)(check)


def looked_at(model: SetModel, step: Step) -> Iterator[CheckText]:
    """Yield the checks that say whether a step holds."""
    names = dict.fromkeys((*(wanted.check for wanted in step.wanted), step.setting.check))
    yield from (model.checks[name] for name in names if name in model.checks)


def _visited(
    model: SetModel, kit: Kit, now: Adjustable, step: Step, sheet: tuple[str, ...]
) -> tuple[Visit, Adjustable]:
    """Return a visit to an adjustment, and the set after it.

    It is read, and turned where that does not hold. It comes right where what it is read by is
    right once all of the sheet is: what else is off on the sheet has its own turn.
    """
    if step.missing:
        return Visit(step.id), now
    place = Place(now, Adjustable(now.with_fine(sheet), now.errors), step)
    found = tuple(Entry(before=_before(place, wanted)) for wanted in step.wanted)
    if verdict(model, kit, step, found).verdict in ("holds", "cannot-tell"):
        return Visit(step.id, found), now
    set_to = tuple(
        Entry(each.before, _after(place, wanted, each.before))
        for wanted, each in zip(step.wanted, found, strict=True)
    )
    gave_up = verdict(model, kit, step, set_to).verdict not in ("holds", "cannot-tell")
    is_turned = any(entry.before != entry.after for entry in set_to)
    visit = Visit(step.id, set_to, gave_up)
    return visit, _turned(place, visit) if is_turned else now


def _turned(place: Place, visit: Visit) -> Adjustable:
    """Return the set once an adjustment was set; numbers that came right are what was read last."""
    model, now = place.now.bench.model, place.now.set_right(place.step.id)
    for wanted, entry in zip(place.step.wanted, visit.entries, strict=True):
        if wanted.check in model.checks and wanted.answer == "number" and not visit.gave_up:
            now = now.reading(place.step.id, read_answer(model, wanted.check, entry.after))
    return now


def _comes_right(place: Place, wanted: WantedText) -> bool:
    """Whether a thing wanted can be had: what shows it is right once the sheet is done."""
    bench = place.fine.bench
    check = bench.model.checks.get(wanted.check or place.step.setting.check)
    if check is not None:
        return not bench.truth.get(check.looks_at, 0) and bench.makes_sense(check)
    block = place.step.id.partition(".")[0]
    own = [name for name in bench.model.signals if name.partition(".")[0] == block]
    off = bench.turned({place.step.id: 1}).truth
    return not any(bench.truth[name] for name in own if off[name] != bench.truth[name])


def _before(place: Place, wanted: WantedText) -> str:
    """Return what is read as it is found."""
    if (check := place.now.bench.model.checks.get(wanted.check)) is not None:
        return _answered(place.now, check)
    is_right = not place.is_out and _comes_right(place, wanted)
    return _made_up(place, wanted, is_right) if wanted.answer != "best" else MIDDLING


def _after(place: Place, wanted: WantedText, before: str) -> str:
    """Return what is read once it is turned as well as can be."""
    check = place.now.bench.model.checks.get(wanted.check)
    comes_right = _comes_right(place, wanted)
    if wanted.answer == "best":
        return _best(place, wanted, before, check)
    if check is None or (comes_right and wanted.answer == "number"):
        return _made_up(place, wanted, comes_right)
    return check.likeliest() if comes_right else _answered(place.fine, check)


def _best(place: Place, wanted: WantedText, before: str, check: CheckText | None) -> str:
    """Return the reading at the best place: as it was where it stands there already."""
    if not place.is_out:
        return before
    if check is None:
        return LESS if wanted.goes_down else MORE
    after, was = _answered(place.fine, check), float(before.split()[0])
    is_worse = float(after.split()[0]) > was if wanted.goes_down else float(after.split()[0]) < was
    return before if is_worse else after


def _made_up(place: Place, wanted: WantedText, is_right: bool) -> str:
    """Return a reading that is no answer of a check, right or not."""
    if wanted.answer == "yes":
        return "yes" if is_right else "no"
    if wanted.answer == "spread":
        return EVEN if is_right else UNEVEN
    assert wanted.low is not None, wanted.said
    assert wanted.high is not None, wanted.said
    value = within(wanted.low, wanted.high, place.now.bench.dice(f"aim {place.step.id}"))
    if not is_right:
        value += (wanted.high - wanted.low) / 2.0 * place.now.error_shown(place.step.id)
    check = place.now.bench.model.checks.get(wanted.check)
    if check is not None and check.span is not None and check.span[0] == 0.0:
        value = abs(value)  # of an error that the check knows without its sign
    sign = "+" if wanted.right_mhz is not None and value >= 0.0 else ""
    return f"{sign}{value:.6g} {wanted.unit}"


def _answered(now: Adjustable, check: CheckText) -> str:
    """Return an answer to a check as somebody writes it, with its unit."""
    finding = now.bench.answer(check.id)
    return f"{finding.value:.6g} {check.unit}" if finding.value is not None else finding.said
