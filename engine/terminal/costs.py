"""Repair now or measure on: the costs of both as text and as plain records."""

from collections.abc import Iterator
from typing import Any, Literal

from engine.diagnosis.advising.steps import Step
from engine.diagnosis.case import Case
from engine.diagnosis.costing.weighing import Attempt, Costs, weigh
from engine.diagnosis.model import SetModel

SHOWN = 4  # repairs and checks
MEASURE_ON = "No repair is worth trying yet, and no single check settles it: measure on."
NOTHING = "Nothing is known to be wrong yet, so there is nothing to repair."


def cost_lines(model: SetModel, case: Case, now: Step) -> Iterator[str]:
    """Yield what repairing now comes to, and what it comes to after one more check."""
    costs = weigh(model, case, now)
    if costs is None:
        return
    yield "Repair now or measure on, in minutes to be expected (estimates):"
    yield f"  {_now(costs)}"
    for number, attempt in enumerate(costs.attempts[:SHOWN], start=1):
        yield from _attempt(model, case, number, attempt)
    for check in costs.checks[:SHOWN]:
        title = f"{model.checks[check.check].title} ({check.effort_min:.0f} min)"
        yield f"  {check.expected_min:5.0f}  after one more check: {title}"
    yield f"  {_best(model, costs)}"


def show_costs(model: SetModel, case: Case, now: Step) -> Literal[False]:
    """Print them; False, as that changes nothing about the case."""
    print("\n".join(cost_lines(model, case, now)) or NOTHING)
    return False


def _now(costs: Costs) -> str:
    last = f"then somebody else, worth {costs.hand_over_min:.0f}"
    if not costs.attempts:
        return f"{costs.expected_min:5.0f}  now: no repair is worth trying yet, {last}"
    many = len(costs.attempts)
    tried = "one repair" if many == 1 else f"up to {many} repairs in this order"
    return f"{costs.expected_min:5.0f}  now: {tried}, {last}"


def _attempt(model: SetModel, case: Case, number: int, attempt: Attempt) -> Iterator[str]:
    cause = model.causes[attempt.cause]
    chance = f"{100.0 * attempt.chance:.0f}" if attempt.chance >= 0.01 else "under 1"
    yield f"      {number}. {cause.title}: {attempt.minutes:.0f} min, ends it with {chance} %"
    made = {finding.check for finding in case.findings if finding.is_evidence}
    for name in cause.prove_first:
        if name in model.checks and name not in made:
            yield f"         first check: {model.checks[name].title}"
    if attempt.look is not None:
        title = model.checks[attempt.look.check].title
        yield f"         look first: {title} ({attempt.look.effort_min:.0f} min)"
    yield from (f"         ! {model.cautions[one].title}" for one in cause.cautions)


def _best(model: SetModel, costs: Costs) -> str:
    first = costs.check_first
    if first is None:
        return "Cheapest: repair now." if costs.attempts else MEASURE_ON
    saved = costs.expected_min - first.expected_min
    return f"Cheapest: {model.checks[first.check].title} first, {saved:.1f} min less."


def cost_record(model: SetModel, case: Case, now: Step) -> dict[str, Any] | None:
    """Return the costs for a script, None where nothing is known to be wrong."""
    costs = weigh(model, case, now)
    if costs is None:
        return None
    return {
        "trouble": list(costs.trouble),
        "repair_now": {
            "expected_min": costs.expected_min,
            "hand_over_min": costs.hand_over_min,
            "attempts": [_record(each) for each in costs.attempts],
        },
        "check_first": [
            {
                "check": each.check,
                "effort_min": each.effort_min,
                "expected_min": each.expected_min,
            }
            for each in costs.checks
        ],
        "cheapest": costs.check_first.check if costs.check_first else None,
    }


def _record(attempt: Attempt) -> dict[str, Any]:
    look = attempt.look
    return {
        "cause": attempt.cause,
        "p_ends_it": attempt.chance,
        "minutes": attempt.minutes,
        "look": {"check": look.check, "effort_min": look.effort_min} if look else None,
    }
