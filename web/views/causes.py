"""The causes as bars, and one of them opened: why, why not, what to do."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.steps import RankedCause, Step, mendable
from web.views.decides_button import decides_button
from web.views.frame import bar, cautions
from web.views.leaf_button import leaf_button
from web.views.markup import button, h, shows
from web.views.mending import mend_buttons
from web.views.state import Bench, Shown
from web.views.verdict import to_act_on, unproved
from web.views.words import KINDS, change, listed, percent

FIRST = 8


def causes(bench: Bench, shown: Shown) -> Element:
    """Return the ranked causes; what the set went through stands apart."""
    parts = mendable(bench.step.causes)
    rows = parts if shown.all_causes else parts[:FIRST]
    before = _before(bench.before)
    return h(
        "section",
        {"class": "causes", "id": "causes", "aria-labelledby": "causes-title"},
        h("h2", {"id": "causes-title"}, "What it may be"),
        h(
            "p",
            {"class": "hint"},
            "Several can be true at once, so the figures need not add up to 100.",
        ),
        h("ol", {"class": "bars"}, [_row(bench, shown, each, before) for each in rows]),
        _opened_elsewhere(bench, shown, rows),
        _more(shown, len(parts)),
        _events(bench.step),
        decides_button(),
    )


def _before(step: Step | None) -> dict[str, float]:
    return {each.id: each.probability for each in step.causes} if step else {}


def _row(bench: Bench, shown: Shown, each: RankedCause, before: dict[str, float]) -> Element:
    is_open = shown.cause == each.id
    moved = change(each.probability - before[each.id]) if each.id in before else ""
    title = button(
        each.title,
        {
            "class": "cause-title",
            "aria-expanded": str(is_open).lower(),
            **shows(cause=None if is_open else each.id),
        },
    )
    where = f"{bench.model.blocks[each.block].title} · {KINDS[each.kind]}"
    return h(
        "li",
        {
            "id": f"cause-{each.id}",
            "data-cause": each.id,
            "data-probability": repr(each.probability),
        },
        h(
            "div",
            {"class": "bar-row"},
            title,
            h("span", {"class": "figure"}, percent(each.probability)),
            h("span", {"class": f"moved {moved.split(' ')[0]}"}, moved),
        ),
        bar(each.probability),
        h("small", None, where),
        _opened(bench, each) if is_open else None,
    )


def _opened(bench: Bench, each: RankedCause) -> Element:
    text = bench.model.causes[each.id]
    ways = [f"{text.ways[way]} {percent(p)}" for way, p in each.ways if way in text.ways]
    return h(
        "div",
        {"class": "opened", "id": "opened-cause", "tabindex": "-1"},
        h("p", None, text.about) if text.about else None,
        h("p", None, f"As: {listed(ways)}.") if len(ways) > 1 else None,
        h("div", {"data-later": "why", "id": "why", "class": "why"}),
        _proofs(bench, each),
        _remedy(bench, each),
        mend_buttons(bench, each.id) if each.kind != "event" and not bench.step.kinds else None,
        _leaf(bench, each),
        h("small", None, f"Source: {text.source}"),
    )


def _leaf(bench: Bench, each: RankedCause) -> Element | None:
    """Return the way to all that is known of it; not while the kind of set is open."""
    if bench.step.kinds:
        return None
    words = "All that is known of it"
    return h("p", None, leaf_button(words, bench.model.family.id, f"cause/{each.id}"))


def _proofs(bench: Bench, each: RankedCause) -> Element | None:
    """Return the checks that come before any repair of this cause and were not made."""
    first = [
        button(bench.model.checks[name].title, shows("check-title", check=name))
        for name in unproved(bench, each.id)
    ]
    if not first:
        return None
    words = h("span", None, "To be checked before anything is done about it: ")
    return h("p", {"class": "row"}, words, first)


def _remedy(bench: Bench, each: RankedCause) -> Element:
    """Return what to do; folded away while it is not sure, or not proved, that it is this."""
    text = bench.model.causes[each.id]
    act = (cautions(bench.model, text.cautions), h("p", {"class": "act"}, text.act))
    if each.id in to_act_on(bench) and not unproved(bench, each.id):
        return h("div", None, h("h3", None, "What to do"), act)
    words = "What would be done if it turns out to be this (not sure enough yet)"
    return h("details", {"id": f"remedy-{each.id}"}, h("summary", None, words), act)


def _opened_elsewhere(bench: Bench, shown: Shown, rows: list[RankedCause]) -> Element | None:
    """Return the opened cause when it is not among the rows shown."""
    if shown.cause is None or any(each.id == shown.cause for each in rows):
        return None
    each = next((row for row in bench.step.causes if row.id == shown.cause), None)
    if each is None:
        return None
    return h("ol", {"class": "bars lone"}, _row(bench, shown, each, _before(bench.before)))


def _more(shown: Shown, count: int) -> Element:
    if shown.all_causes:
        return button("Show the first ones only", {"id": "more-causes", **shows(all_causes=False)})
    return button(f"Show all {count} causes", {"id": "more-causes", **shows(all_causes=True)})


def _events(step: Step) -> Element | None:
    """Return what the set may have gone through; it is no part to replace."""
    rows = [each for each in step.causes if each.kind == "event"][:3]
    if not rows:
        return None
    words = listed([f"{each.title} ({percent(each.probability)})" for each in rows])
    return h("p", {"class": "events"}, f"What it may have been through: {words}.")
