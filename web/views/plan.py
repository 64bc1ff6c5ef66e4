"""The frequency plan of a set: tables for the bench, on screen and on one sheet of paper."""

from xml.etree.ElementTree import Element

from engine.diagnosis.model import SetModel
from engine.radio.plans.plan import Plan
from engine.radio.plans.sheet import plan_sheet
from engine.radio.plans.tables import Table, plan_tables
from web.views.frame import heading, steps
from web.views.markup import button, h, shows
from web.views.state import Shown

OPENS = "Frequencies of this set"


def plan_button(family: str, name: str) -> Element:
    """Return the button that opens the plan of a family; `name` is the button's own id."""
    return button(OPENS, {"id": name, **shows("title", screen="plan", family=family)})


def plan_screen(model: SetModel, shown: Shown, has_case: bool) -> list[Element]:
    """Return the plan of a set in the mode chosen; a set without one says so."""
    back = button("Back to the bench", shows("title", screen="bench"))
    if not has_case:
        back = button("Back to the sets", shows("title", screen="home"))
    head = [*([steps("plan")] if has_case else []), heading(OPENS)]
    if model.plan is None:
        return [*head, h("p", None, "No frequency plan is known of this set."), back]
    wanted, modes = shown.plan_mode or "", model.plan.modes
    mode = wanted if wanted in modes else next(iter(modes))
    return [
        *head,
        h(
            "p",
            {"class": "row"},
            button("Print on one sheet", {"data-act": "print", "class": "main"}),
            _modes(model.plan, mode),
            back,
        ),
        _sheet(model, model.plan, mode),
    ]


def _modes(plan: Plan, chosen: str) -> list[Element]:
    """Return a button for each mode, when there are several."""
    if len(plan.modes) == 1:
        return []
    return [
        button(
            mode.title,
            {
                "id": f"plan-{name}",
                "aria-pressed": "true" if name == chosen else "false",
                **shows(f"plan-{name}", plan_mode=name),
            },
        )
        for name, mode in plan.modes.items()
    ]


def _sheet(model: SetModel, plan: Plan, mode: str) -> Element:
    """Return all there is to print."""
    tables = [_table(table) for table in plan_tables(plan_sheet(plan, mode))]
    notes = [h("li", None, note) for note in plan.notes]
    return h(
        "article",
        {"class": "plan-sheet", "id": "plan"},
        h("h2", None, f"{plan.title} · {plan.modes[mode].title}"),
        h("p", None, plan.about),
        h("div", {"class": "plan-tables"}, tables),
        h("ul", None, notes) if notes else None,
        h("small", None, f"Source: {plan.source.rstrip('.')}. Knowledge {model.version}."),
    )


def _table(table: Table) -> Element:
    """Return a table that scrolls in a box of its own where it does not fit."""
    head = h("tr", None, [h("th", {"scope": "col"}, word) for word in table.head])
    rows = [
        h("tr", None, h("th", {"scope": "row"}, row[0]), [h("td", None, cell) for cell in row[1:]])
        for row in table.rows
    ]
    box = {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": table.title}
    return h(
        "section",
        None,
        h("h3", None, table.title),
        h("p", {"class": "hint"}, table.note),
        h("div", box, h("table", None, h("thead", None, head), h("tbody", None, rows))),
    )
