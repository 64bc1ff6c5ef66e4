"""Ways of working: what somebody at the bench checks next."""

from collections.abc import Callable, Mapping
from random import Random

from engine.assessing.chart import next_half, next_of_chart
from engine.assessing.looking_ahead import DOZEN, next_of_two
from engine.assessing.moments import Moment
from engine.diagnosis.advising.steps import ORDERS
from engine.diagnosis.costing.weighing import weigh

Policy = Callable[[Moment], str | None]
FEW = 3  # checks to look at in full where only the best is made


def _of_order(order: str) -> Policy:
    def best(moment: Moment) -> str | None:
        rows = ORDERS[order](moment.answer)
        return rows[0].id if rows else None

    return best


def _cheapest(moment: Moment) -> str | None:
    """Return the check after which all that follows is expected to cost least.

    Before anything is known to be wrong, and among checks that are not weighed so, the shipped
    order.
    """
    costs = weigh(moment.model, moment.case, moment.answer)
    return costs.checks[0].check if costs and costs.checks else _of_order("worth")(moment)


def _any(moment: Moment) -> str | None:
    """Return a check by chance."""
    rows = list(moment.open)
    return Random(f"{moment.seed} {len(moment.case.all_findings())}").choice(rows) if rows else None


POLICIES: Mapping[str, Policy] = {
    "shipped": _of_order("worth"),
    "most-told": _of_order("gain"),
    "most-a-minute": _of_order("minutes"),
    "two-ahead": next_of_two,
    "cheapest-repair": _cheapest,
    "chart": next_of_chart,
    "half-split": next_half,
    "any": _any,
}
TITLES: Mapping[str, str] = {
    "shipped": "As shipped: of what tells nearly most, the quickest",
    "most-told": "What tells most",
    "most-a-minute": "What tells most a minute",
    "two-ahead": "What tells most with the check after it",
    "cheapest-repair": "What makes the whole repair cheapest to expect",
    "chart": "A printed chart: supply, audio, receiver, synthesiser, transmitter",
    "half-split": "Half of the signal path at a time",
    "any": "Any check, by chance",
}


def looked_at(policy: str) -> int:
    """Return how many of the best checks a way of working has to know."""
    return DOZEN if policy == "two-ahead" else FEW
