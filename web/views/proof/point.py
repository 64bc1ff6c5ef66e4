"""One point of the proof: what is wanted, how it is measured, the entry, what the reading says."""

from xml.etree.ElementTree import Element

from engine.proving.leading_back import as_finding, set_by
from engine.proving.sheet import Point
from engine.proving.verdict import Row
from engine.proving.words import bounds_words, row_words, where_words
from engine.setting_up.words import name_of
from web.proof_case import usual_instrument
from web.set_up_log import EVERYTHING
from web.views.markup import button, h, puts, shows
from web.views.proof.state import Proving, badge_words, missing_tools
from web.views.refused import refused_words
from web.views.state import said

NOT_YET = "Not measured yet."


def point_row(proving: Proving, row: Row, next_focus: str, is_next: bool) -> Element:
    """Return a point; the next one that was not measured has its steps unfolded."""
    point = row.point
    return h(
        "li",
        {
            "class": f"point card {row.verdict}",
            "id": f"point-{point.id}",
            "data-verdict": row.verdict,
        },
        h("h3", {"id": f"title-{point.id}"}, where_words(point)),
        _wanted(proving, point),
        _how(proving, point, is_next),
        _entry(proving, row, next_focus),
        _result(proving, row),
        _leads_back(proving, row),
        _set_by(proving, row),
    )


def control_id(point: Point) -> str:
    """Return the id of what takes the answer at a point, where the focus goes."""
    return f"read-{point.id}" if point.unit else f"yes-{point.id}"


def _wanted(proving: Proving, point: Point) -> Element | None:
    """Return what the counter should show, and the figures of the rules."""
    rules = proving.proof.now.rules.id
    words = [f"Right is {point.right_mhz:.6f} MHz"] if point.quantity == "frequency-error" else []
    words += [bounds_words(point, rules)] if point.bounds.get(rules) else []
    return h("p", {"class": "wanted"}, "; ".join(words)) if words else None


def _how(proving: Proving, point: Point, is_next: bool) -> Element:
    """Return the cautions of a point, then how it is measured."""
    named = [proving.sheet.cautions[each].title for each in point.cautions]
    lacks = missing_tools(proving.sheet, point, proving.kit)
    return h(
        "details",
        {"open": is_next},
        h("summary", None, "How to measure it"),
        h("p", {"class": "private"}, f"Mind: {'; '.join(named)}.") if named else None,
        h("p", None, point.how),
        h("p", {"class": "hint"}, f"It takes what you said you have not got: {'; '.join(lacks)}.")
        if lacks
        else None,
    )


def _entry(proving: Proving, row: Row, next_focus: str) -> Element:
    point = row.point
    if not point.unit:
        return _yes_or_no(row, next_focus)
    problem = proving.problem_at(point.id)
    typed = proving.log.now.get(point.id)
    name = control_id(point)
    field = {
        "type": "text",
        "id": name,
        "name": "said",
        "value": problem.typed if problem else typed.said if typed else "",
        "autocomplete": "off",
        "required": True,
        "aria-invalid": "true" if problem else None,
        "aria-describedby": f"told-{point.id}",
    }
    return h(
        "form",
        {"class": "reading", "data-focus": next_focus, **puts("prove", point=point.id)},
        h("label", {"for": name}, point.asks),
        h(
            "span",
            {"class": "row"},
            h("input", field),
            h("span", {"class": "unit"}, _unit(point)),
            _meters(proving, point),
            h("button", {"type": "submit"}, "Enter"),
        ),
    )


def _unit(point: Point) -> str:
    """Return the unit of what is typed: a counter shows megahertz."""
    return "MHz, or the error as +0.3 kHz" if point.quantity == "frequency-error" else point.unit


def _meters(proving: Proving, point: Point) -> Element | None:
    """Return the choice of instrument where there is one."""
    if len(point.meters) < 2:
        return None
    typed = proving.log.now.get(point.id)
    chosen = (typed.instrument if typed else "") or usual_instrument(point, proving.kit)
    options = [
        h(
            "option",
            {"value": each.instrument, "selected": each.instrument == chosen},
            proving.sheet.instruments[each.instrument],
        )
        for each in point.meters
    ]
    label = f"Measured with, {where_words(point)}"
    return h(
        "select", {"name": "instrument", "aria-label": label, "id": f"with-{point.id}"}, options
    )


def _yes_or_no(row: Row, next_focus: str) -> Element:
    """Return two buttons for what is only seen."""
    seen = row.reading.is_seen if row.reading else None
    return h(
        "div",
        {"role": "group", "aria-labelledby": f"asks-{row.point.id}"},
        h("p", {"id": f"asks-{row.point.id}", "class": "seen"}, row.point.asks),
        h(
            "p",
            {"class": "row"},
            [
                button(
                    word.capitalize(),
                    {
                        "id": f"{word}-{row.point.id}",
                        "aria-pressed": "true" if seen is (word == "yes") else "false",
                        "data-focus": next_focus,
                        **puts("prove", point=row.point.id, said=word),
                    },
                )
                for word in ("yes", "no")
            ],
        ),
    )


def _result(proving: Proving, row: Row) -> Element:
    """Return what the reading says, or why it cannot be used."""
    name = f"told-{row.point.id}"
    problem = proving.problem_at(row.point.id)
    if problem is not None:
        return h("p", {"id": name, "class": "wrong"}, refused_words(problem.problem))
    if row.reading is None:
        return h("div", {"id": name}, h("p", {"class": "hint"}, NOT_YET), _earlier(proving, row))
    lacks = f" It also needs: {', '.join(row.lacks)}." if row.lacks else ""
    return h(
        "div",
        {"id": name, "class": "result"},
        h("p", None, h("b", {"class": "badge"}, badge_words(row)), f" {row_words(row)}.{lacks}"),
        _earlier(proving, row),
        button(
            "Withdraw",
            {
                "aria-label": f"Withdraw: {where_words(row.point)}",
                "data-focus": control_id(row.point),
            }
            | puts("prove", point=row.point.id, said=""),
        ),
    )


def _earlier(proving: Proving, row: Row) -> Element | None:
    """Return what was read before the work."""
    before = next(each for each in proving.proof.before.rows if each.point is row.point)
    if before.reading is None:
        return None
    return h(
        "p", {"class": "hint"}, f"Before the work: {before.reading.said}, {badge_words(before)}."
    )


def _set_by(proving: Proving, row: Row) -> Element | None:
    """Return which adjustments set what a point that fails reads, and the way to them."""
    names = set_by(proving.model, row.point) if row.verdict in ("fail", "poor") else ()
    if not names:
        return None
    titles = "; ".join(name_of(proving.model, name) for name in names)
    press = {
        **puts("set-up-sheet", sheet=EVERYTHING),
        **shows("title", screen="set-up", step=names[0]),
    }
    to_set = button("Go there", {"aria-label": f"Set up: {titles}", **press})
    return h("p", {"class": "row set-by"}, f"If no cause is found: it is set by {titles}.", to_set)


def _leads_back(proving: Proving, row: Row) -> Element | None:
    """Return the way from a point that fails to the check that measures the same."""
    if row.verdict not in ("fail", "poor"):
        return None
    to_bench = shows("check-title", screen="bench", check=None)
    matched = as_finding(proving.model, row)
    if matched is None:
        words = "No check of the diagnosis takes this reading as it is."
        return h("p", {"class": "row"}, words, button("Back to finding the cause", to_bench))
    name, finding = matched
    title = proving.model.checks[name].title
    now = next((each for each in proving.state.case.findings if each.check == name), None)
    if now is not None and now.said == finding.said:
        told = f"Entered as a finding: {title}."
        return h("p", {"class": "row"}, told, button("Go on finding the cause", to_bench))
    instead = f" Found before: {said(proving.model, now)}." if now else ""
    enter = {
        "id": f"find-{row.point.id}",
        **puts("answer", check=name, said=finding.said),
        **to_bench,
    }
    words = f"The diagnosis has a check that measures the same: {title}.{instead}"
    return h(
        "div", {"class": "leads-back"}, h("p", None, words), button("Enter it as a finding", enter)
    )
