"""How it decides, in plain words and with the numbers of this case."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.advice import LEADS, NEARLY_SURE, SURE
from engine.diagnosis.advising.explaining import Reasons
from engine.diagnosis.advising.explaining import why as reasons_for
from engine.diagnosis.advising.foresight import OutcomeEffect, what_if
from engine.diagnosis.advising.steps import mendable
from engine.diagnosis.case import Finding
from engine.diagnosis.model import CheckText
from web.views.frame import heading, steps
from web.views.markup import button, h, shows
from web.views.state import Bench, Shown, said
from web.views.words import bits, listed, minutes, percent

LEADING = 5
SAME = 1.05  # odds that change by less are said to stay as they were


def decides(bench: Bench, shown: Shown) -> list[Element]:
    """Return the screen. The leading cause is that of the bench, or the one opened there."""
    parts = mendable(bench.step.causes)
    opened = shown.cause if shown.cause in bench.model.causes else parts[0].id
    reasons = reasons_for(bench.model, bench.case, str(opened))
    lead = (
        "There is no guessing in it. Every cause begins with how common it is. Every finding makes "
        "some causes likelier and others less so. Here are the numbers of this case."
    )
    return [
        steps("bench"),
        heading("How does it decide?"),
        h("p", {"class": "lead"}, lead),
        _begin(bench),
        _findings(bench, reasons),
        _next(bench, shown),
        _when(),
        h("p", {"class": "row"}, button("Back to the bench", shows("title", screen="bench"))),
    ]


def _section(name: str, title: str, *inside: Element | None) -> Element:
    attributes = {"class": "deciding", "aria-labelledby": f"{name}-title"}
    return h("section", attributes, h("h2", {"id": f"{name}-title"}, title), inside)


def _begin(bench: Bench) -> Element:
    parts = mendable(bench.step.causes)[:LEADING]
    rows = [
        h(
            "tr",
            None,
            h("th", {"scope": "row"}, each.title),
            h("td", {"class": "figure"}, percent(each.prior)),
            h("td", {"class": "figure"}, percent(each.probability)),
        )
        for each in parts
    ]
    head = h("tr", None, [h("th", {"scope": "col"}, w) for w in ("Cause", "At first", "Now")])
    count = sum(each.kind != "event" for each in bench.model.causes.values())
    words = (
        f"Of {count} causes that are known for such a set, these lead now. At "
        "first they were only as likely as they are common in old sets."
    )
    table = h("table", None, h("thead", None, head), h("tbody", None, rows))
    return _section("begin", "1. How common each cause is", h("p", None, words), table)


def _findings(bench: Bench, reasons: Reasons) -> Element:
    title = bench.model.causes[reasons.cause].title
    words = (
        f"“{title}” began at {percent(chance(reasons.prior_decibans))}. Odds are how likely it is "
        "against its being in order; times two doubles them."
    )
    level, rows = reasons.prior_decibans, []
    for finding, weight in reasons.findings:
        level += weight
        rows.append(_finding(bench, finding, weight, chance(level)))
    none = h("p", None, "Nothing was found yet, so that is where it stands.")
    listed_ = h("ol", {"class": "rows"}, rows) if rows else none
    return _section("weighed", "2. What each finding did to it", h("p", None, words), listed_)


def _finding(bench: Bench, finding: Finding, weight: float, now: float) -> Element:
    words = f"{bench.model.checks[finding.check].lead_in} {said(bench.model, finding)}"
    told = f"{times(weight)}: now {percent(now)}"
    return h("li", None, h("span", None, words), h("b", None, told))


def chance(decibans: float) -> float:
    """Return the probability that odds of so many decibans stand for.

    >>> chance(0.0), round(chance(10.0), 3)
    (0.5, 0.909)
    """
    return 1.0 / (1.0 + 10.0 ** (-decibans / 10.0)) if decibans > -3000 else 0.0


def times(weight: float) -> str:
    """Word how a finding changed the odds.

    >>> times(10.0), times(-3.0103), times(0.01), times(400.0)
    ('odds times 10', 'odds divided by 2.0', 'odds as before', 'odds times more than a million')
    """
    factor = 10.0 ** (min(abs(weight), 3000.0) / 10.0)
    if factor < SAME:
        return "odds as before"
    figure = f"{factor:.1f}" if factor < 9.95 else f"{factor:,.0f}"
    figure = "more than a million" if factor > 1e6 else figure
    return f"odds {'times' if weight > 0 else 'divided by'} {figure}"


def _next(bench: Bench, shown: Shown) -> Element:
    check = bench.check_at_hand(shown)
    title = "3. Why this check next"
    if check is None:
        return _section("next", title, h("p", None, "No check is left that your kit allows."))
    effects = what_if(bench.model, bench.case, check.id)
    rows = [h("li", None, _answer(bench, each)) for each in effects]
    inside = (h("p", None, "What may come out:"), h("ul", None, rows))
    chosen = h("p", None, _chosen(bench, check.id))
    return _section("next", title, _worth(bench, check), *inside, chosen, _runner_up(bench, shown))


def _worth(bench: Bench, check: CheckText) -> Element:
    advised = next((each for each in bench.step.checks if each.id == check.id), None)
    gain = bits(advised.gain_bits) if advised else "an unknown amount"
    takes = minutes(round(advised.effort_min if advised else check.minutes, 1))
    words = (
        f"“{check.title}” is expected to clear up {gain} of the {bench.step.entropy_bits:.1f} bits "
        f"of doubt that are left. One bit halves the doubt, as a coin tossed does. It takes about "
        f"{takes}, with getting ready."
    )
    return h("p", None, words)


def _chosen(bench: Bench, check: str) -> str:
    if check in bench.step.confirming:
        return "It is asked because it would confirm or clear the cause that leads."
    return "Of the checks that tell nearly as much as the best one, the easiest is asked first."


def _answer(bench: Bench, effect: OutcomeEffect) -> str:
    leading = [f"{bench.model.causes[c].title} {percent(p)}" for c, p in effect.causes[:2]]
    then = f"; then {listed(leading)} would lead" if leading else ""
    return f"{effect.label}: {percent(effect.probability)} likely{then}."


def _runner_up(bench: Bench, shown: Shown) -> Element | None:
    check = bench.check_at_hand(shown)
    rows = bench.ordered(shown.order)
    other = next((each for each in rows if check and each.id != check.id), None)
    if other is None:
        return None
    takes = minutes(round(other.effort_min, 1))
    words = f"Another would be “{other.title}”: {bits(other.gain_bits)}, {takes}."
    return h("p", None, words)


def _when() -> Element:
    words = (
        f"From {percent(LEADS)} for one cause on, checks that confirm or clear it come first. From "
        f"{percent(NEARLY_SURE)} on it says to act when there is no such check, or at "
        f"{percent(SURE)}. Below that it goes on asking, or says that your kit can tell no more of "
        "what leads. It can be wrong: a check misread, "
        "or a fault that nobody wrote down, leads it astray, and every finding can be changed."
    )
    return _section("when", "4. When it is sure enough", h("p", None, words))
