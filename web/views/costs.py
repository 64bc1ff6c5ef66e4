"""Repair now, or measure on: minutes to be expected of both, worked out when they are asked for."""

from functools import lru_cache
from xml.etree.ElementTree import Element

from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case
from engine.diagnosis.costing.weighing import Attempt, CheckFirst, Costs, weigh
from engine.diagnosis.model import CauseText, SetModel
from web.views.markup import button, h, shows
from web.views.state import Bench, Shown
from web.views.verdict import to_act_on, unproved
from web.views.words import minutes, percent

MEASURE_ON = "No repair is worth trying yet, and no single check settles it: measure on."
FIRST = 4  # repairs and checks shown
HINT = (
    "Minutes of work, with parts and their price put into minutes too: estimates, to weigh one "
    "against the other. Repairs are tried one after the other until the trouble is gone."
)


def costs_box(bench: Bench, shown: Shown) -> Element | None:
    """Return the place of the costs; with the lid on, how long what is sure will take.

    None where nothing is known of repairs, or the kind of set is not known yet.
    """
    if bench.model.mending is None or bench.step.kinds:
        return None
    at_home = bench.case.kit.lid == "on"
    inside = _sure(bench) if at_home else _asked_for(bench, shown)
    if not inside:
        return None
    return h(
        "section",
        {"class": "costs", "id": "costs", "aria-labelledby": "costs-title"},
        h(
            "h2",
            {"id": "costs-title", "tabindex": "-1"},
            "How long it will take" if at_home else "Repair now, or measure on?",
        ),
        *inside,
    )


def stage_of(bench: Bench) -> str:
    """Return what tells one stage of a case from the next, so that costs are of this one."""
    return f"{len(bench.case.past)}-{len(bench.case.all_findings())}"


def costs_filled(bench: Bench) -> Element:
    """Return what repairing now comes to, and what it comes to after one more check."""
    costs = _weighed(bench.model, bench.case)
    if costs is None:
        words = "Nothing is known to be wrong yet, so there is nothing to repair."
        return h("p", None, words)
    return h(
        "div",
        None,
        h("p", {"class": "cheapest"}, h("b", None, _best(bench, costs))),
        h("h3", None, _now(costs)),
        h("ol", None, [_attempt(bench, each) for each in costs.attempts[:FIRST]]),
        h("p", None, _last(costs)),
        h("h3", None, "One more check first") if costs.checks else None,
        h("ul", {"class": "rows"}, [_check(bench, each) for each in costs.checks[:FIRST]]),
    )


@lru_cache(maxsize=8)
def _weighed(model: SetModel, case: Case) -> Costs | None:
    """Return the costs, kept because every repaint asks for them; all checks are looked at."""
    return weigh(model, case, step(model, case))


def _asked_for(bench: Bench, shown: Shown) -> list[Element]:
    stage = stage_of(bench)
    if shown.costs == stage:
        return [
            h("p", {"class": "hint"}, HINT),
            h("div", {"data-later": "costs", "id": "costs-told"}),
        ]
    words = "Work out the minutes"
    return [h("p", {"class": "row"}, button(words, shows("costs-title", costs=stage)))]


def _sure(bench: Bench) -> list[Element]:
    """Return how long the repairs take that are sure enough to act on."""
    causes = [bench.model.causes[name] for name in to_act_on(bench)[:FIRST]]
    return [h("p", None, f"{each.title}: {_work(each)}.") for each in causes if each.does_it > 0.0]


def _work(cause: CauseText) -> str:
    part = " and a new part" if cause.part_min > 0.0 else ""
    return f"about {minutes(cause.work_min)} of work{part}, for somebody used to it"


def _expected(expected_min: float) -> str:
    return f"about {minutes(round(expected_min))} to be expected"


def _now(costs: Costs) -> str:
    """Return the heading of what it comes to without another check."""
    what = "Repairing now" if costs.attempts else "Handing it to somebody else now"
    return f"{what}: {_expected(costs.expected_min)}"


def _best(bench: Bench, costs: Costs) -> str:
    first = costs.check_first
    if first is None:
        return "Cheapest: repair now." if costs.attempts else MEASURE_ON
    return f"Cheapest: check first, {bench.model.checks[first.check].title}."


def _attempt(bench: Bench, attempt: Attempt) -> Element:
    cause = bench.model.causes[attempt.cause]
    return h(
        "li",
        None,
        button(cause.title, {"class": "pick", **shows("opened-cause", cause=cause.id)}),
        h(
            "small",
            None,
            f"{minutes(round(attempt.minutes))} · ends it with {percent(attempt.chance)}",
        ),
        _before(bench, attempt),
    )


def _before(bench: Bench, attempt: Attempt) -> Element | None:
    """Return the checks that come before a repair: to be safe, or to see whether it is needed."""
    names = unproved(bench, attempt.cause)
    if attempt.look is not None:
        names.append(attempt.look.check)
    rows = [
        button(f"First check: {bench.model.checks[name].title}", shows("check-title", check=name))
        for name in dict.fromkeys(names)
    ]
    return h("p", {"class": "row"}, rows) if rows else None


def _last(costs: Costs) -> str:
    worth = minutes(round(costs.hand_over_min))
    if not costs.attempts:
        return f"No repair is worth trying yet. The trouble of handing it on is put at {worth}."
    return f"Then somebody else has to be asked, which is put at {worth}."


def _check(bench: Bench, each: CheckFirst) -> Element:
    words = f"{_expected(each.expected_min)}, {minutes(round(each.effort_min))} of it the check"
    return h(
        "li",
        None,
        button(
            bench.model.checks[each.check].title,
            {"class": "pick", **shows("check-title", check=each.check)},
        ),
        h("small", None, words),
    )
