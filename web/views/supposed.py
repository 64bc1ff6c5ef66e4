"""What if: the bench as it would be after an answer that is only supposed; the case stays as it is.

Nothing on this screen can be answered but whether it is to be so.
"""

from dataclasses import replace
from xml.etree.ElementTree import Element

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import RankedCause, mendable
from engine.diagnosis.case import Finding, add_finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import CheckText
from engine.errors import UnknownReading
from web.views.frame import bar, heading, steps
from web.views.markup import button, h, puts, shows
from web.views.state import Bench, Shown, said
from web.views.verdict import sentence
from web.views.words import KINDS, change, minutes, percent, worth

LEADING, NEXT = 8, 5
ENOUGH = 12  # checks looked at: more than are shown


def opens(check: CheckText, answer: str) -> dict[str, object]:
    """Return what makes a button open the bench after an answer that is only supposed."""
    return shows("title", screen="supposed", supposed_check=check.id, supposed=answer)


def suppose_a_reading(check: CheckText) -> Element:
    """Return the field for a reading that is only supposed."""
    field = {"type": "text", "id": "supposed", "name": "supposed", "autocomplete": "off"}
    return h(
        "form",
        {"class": "reading suppose", **shows("title", screen="supposed", supposed_check=check.id)},
        h("label", {"for": "supposed"}, f"Or suppose a reading, in {check.unit}"),
        h(
            "span",
            {"class": "row"},
            h("input", field),
            h("button", {"type": "submit"}, "What then?"),
        ),
    )


def supposed_screen(bench: Bench, shown: Shown) -> list[Element]:
    """Return the screen after the answer that is only supposed, or why it cannot be used."""
    check = bench.model.checks[shown.supposed_check]
    try:
        finding = read_answer(bench.model, check.id, shown.supposed)
    except UnknownReading as problem:
        words = f"Found {problem.found}, expected {problem.expected}. {problem.remedy}"
        return [steps("bench"), heading("That cannot be supposed"), h("p", None, words), _back()]
    case = add_finding(bench.case, finding)
    then = replace(bench, case=case, step=step(bench.model, case, ENOUGH), before=bench.step)
    return [
        steps("bench"),
        heading("Only supposed"),
        _banner(then, check, finding),
        h(
            "div",
            {"class": "bench supposed"},
            h("div", {"class": "left"}, _where_it_stands(then), _next(then, shown)),
            h("div", {"class": "right"}, _causes(then)),
        ),
    ]


def _banner(then: Bench, check: CheckText, finding: Finding) -> Element:
    """Return what is supposed, and the two ways out."""
    answer = said(then.model, finding)
    so = {
        **puts("answer", check=finding.check, said=finding.said),
        **shows("check-title", screen="bench", check=None),
    }
    return h(
        "div",
        {"class": "card only-supposed", "role": "note", "id": "only-supposed"},
        h("p", None, "Suppose “", h("b", None, check.title), "” gave ", h("b", None, answer), "."),
        h("p", None, "Nothing of this is entered. Your case is as you left it."),
        h("p", {"class": "row"}, _back(), button("Make it so", {"id": "make-it-so", **so})),
    )


def _back() -> Element:
    back = shows("check-title", screen="bench", supposed="", supposed_check="")
    return button("Back", {"class": "main", "id": "not-so", **back})


def _where_it_stands(then: Bench) -> Element:
    left = f"{then.step.entropy_bits:.1f} bits would be left open"
    now = f", {then.before.entropy_bits:.1f} are now" if then.before else ""
    return h(
        "section",
        {"class": f"verdict {then.step.verdict.kind}", "aria-label": "Where you would stand"},
        h("p", {"class": "sentence"}, sentence(then)),
        h("p", {"class": "hint"}, f"{left}{now}."),
    )


def _next(then: Bench, shown: Shown) -> Element:
    """Return the checks that would come then; none can be answered here."""
    rows = [
        h(
            "li",
            None,
            h("span", None, each.title),
            h("small", None, f"{worth(each.gain_bits)} · {minutes(each.minutes)}"),
        )
        for each in then.ordered(shown.order)[:NEXT]
    ]
    return h(
        "section",
        {"class": "card"},
        h("h2", None, "You would check next"),
        h("ol", {"class": "rows"}, rows) if rows else h("p", None, "No check would be left."),
    )


def _causes(then: Bench) -> Element:
    now = {each.id: each.probability for each in then.before.causes} if then.before else {}
    parts = mendable(then.step.causes)[:LEADING]
    return h(
        "section",
        {"class": "causes"},
        h("h2", None, "What it might be then"),
        h("ol", {"class": "bars"}, [_cause(then, each, now) for each in parts]),
    )


def _cause(then: Bench, each: RankedCause, now: dict[str, float]) -> Element:
    moved = change(each.probability - now[each.id]) if each.id in now else ""
    return h(
        "li",
        {"data-supposed": each.id},
        h(
            "div",
            {"class": "bar-row"},
            h("b", None, each.title),
            h("span", {"class": "figure"}, percent(each.probability)),
            h("span", {"class": f"moved {moved.split(' ')[0]}"}, moved),
        ),
        bar(each.probability),
        h("small", None, f"{then.model.blocks[each.block].title} · {KINDS[each.kind]}"),
    )
