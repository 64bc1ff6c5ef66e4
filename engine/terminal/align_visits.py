"""What was read while setting up, judged: before and after, what is next, what points elsewhere."""

from collections.abc import Iterator, Sequence
from typing import Any

from engine.diagnosis.advising.advice import step as advise
from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.setting_up.guiding import Progress, Standing, Visit, progress
from engine.setting_up.in_time import with_visits
from engine.setting_up.sheet import Step
from engine.setting_up.words import STATES, held_words, standing_words
from engine.terminal.report import causes_table, filled

LEADING = 5  # causes shown where an adjustment will not come right


def progress_lines(
    model: SetModel, case: Case, sheet: Sequence[Step], visits: Sequence[Visit]
) -> Iterator[str]:
    """Yield every step that was visited with its verdict, what is open, and what is next."""
    now = progress(model, case, sheet, visits)
    for standing in now.standings:
        if standing.visits:
            yield from _standing_lines(model, standing)
    waiting = [one for one in now.standings if not one.visits and one.state != "not-needed"]
    yield f"\n{len(waiting)} of {len(sheet)} steps not looked at yet."
    if now.stuck:
        yield from _stuck_lines(model, case, sheet, visits, now)
    if now.next is None:
        yield "Nothing is left to be set."
    else:
        step = now.next.step
        when = "Next after that" if now.stuck else "Next"
        yield filled(f"{when}: {step.number}. {step.title} ({step.id})").strip()


def progress_data(
    model: SetModel, case: Case, sheet: Sequence[Step], visits: Sequence[Visit]
) -> dict[str, Any]:
    """Return where every step stands, for a script."""
    now = progress(model, case, sheet, visits)
    return {
        "next": now.next.step.id if now.next else None,
        "stuck": [one.step.id for one in now.stuck],
        "standings": [_standing_data(one) for one in now.standings],
    }


def _standing_lines(model: SetModel, standing: Standing) -> Iterator[str]:
    step, times = standing.step, f", {standing.visits} visits" if standing.visits > 1 else ""
    yield f"\n{step.number}. {step.title} ({step.id}){times}"
    yield filled(standing_words(model, standing))
    for held in standing.judged.rows if standing.judged else ():
        if held.verdict != "missing" or len(step.wanted) > 1:
            head = f"{held.wanted.at}: {held.wanted.said}" if held.wanted.at else held.wanted.said
            yield filled(f"{head} | {held_words(held)}")


def _stuck_lines(
    model: SetModel, case: Case, sheet: Sequence[Step], visits: Sequence[Visit], now: Progress
) -> Iterator[str]:
    """Yield what the readings point to, where an adjustment will not come right."""
    names = "; ".join(one.step.title for one in now.stuck)
    yield filled(f"Will not come right: {names}. Find out why before going on.").strip()
    answer = advise(model, with_visits(model, case, visits, sheet))
    yield f"\n{causes_table(answer, LEADING)}\n"


def _standing_data(standing: Standing) -> dict[str, Any]:
    reason = standing.reason
    return {
        "adjustment": standing.step.id,
        "state": standing.state,
        "words": STATES[standing.state],
        "visits": standing.visits,
        "reason": {"kind": reason.kind, "by": list(reason.by)} if reason else None,
        "rows": [
            {
                "wanted": held.wanted.said,
                "before": held.entry.before or None,
                "after": held.entry.after or None,
                "verdict": held.verdict,
                "guard": held.guard or None,
            }
            for held in (standing.judged.rows if standing.judged else ())
        ],
    }
