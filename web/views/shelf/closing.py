"""Closing a case: what it was, as it was found and mended."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.steps import RankedCause, mendable
from web.views.frame import heading, steps
from web.views.markup import button, h, shows
from web.views.mending import repairs_told
from web.views.state import Bench, Shown
from web.views.words import KINDS, percent

LEADING = 8
LEADS = "What leads now"
HOW = {
    "found": "It was found: what is ticked below.",
    "nothing-wrong": "Nothing was wrong with the set.",
    "unknown": "It was not found, or never confirmed.",
}


def closing_screen(bench: Bench, shown: Shown) -> list[Element]:
    """Return the form that closes the case at hand."""
    ticked = frozenset(str(each) for each in shown.closed.get("causes", ()))
    how = str(shown.closed.get("how", "found"))
    leading, others = _parted(bench, ticked)
    return [
        steps("record"),
        heading("What was it?"),
        h("p", {"class": "lead"}, _LEAD),
        h(
            "form",
            {"class": "closing", "data-act": "shelf", "data-do": "close-as"},
            h(
                "fieldset",
                None,
                h("legend", None, "How it ended"),
                [_radio(name, words, how) for name, words in HOW.items()],
            ),
            _causes(bench, leading, ticked),
            _all_others(bench, others, shown),
            h(
                "p",
                {"class": "row"},
                h("button", {"type": "submit", "class": "main"}, "Close the case"),
                button("Back to the record", shows("title", screen="record")),
            ),
        ),
    ]


def _parted(bench: Bench, ticked: frozenset[str]) -> tuple[list[RankedCause], list[RankedCause]]:
    """Return the causes to show at once, and all others by title.

    Those ticked before come first, then what was put right, then what leads now.
    """
    ranked = mendable(bench.step.causes)
    mended = {stretch.repair.cause for stretch in bench.case.past}
    rows = sorted(ranked, key=lambda each: (each.id not in ticked, each.id not in mended))
    leading = rows[: max(LEADING, len(ticked | mended))]
    others = (each for each in ranked if each not in leading)
    return leading, sorted(others, key=lambda each: (each.title, each.id))


_LEAD = (
    "Tick only what was seen to be wrong and whose repair put the set right: what is confirmed "
    "here can be counted later. Several causes may have been there together."
)


def _radio(name: str, words: str, how: str) -> Element:
    box = {
        "type": "radio",
        "name": "how",
        "value": name,
        "id": f"how-{name}",
        "checked": name == how,
    }
    return h("div", {"class": "option"}, h("input", box), h("label", {"for": f"how-{name}"}, words))


def _causes(bench: Bench, causes: list[RankedCause], ticked: frozenset[str]) -> Element:
    return h(
        "fieldset",
        None,
        h("legend", None, "What was put right, and what leads now" if bench.case.past else LEADS),
        [_box(bench, each, ticked) for each in causes],
    )


def _box(bench: Bench, each: RankedCause, ticked: frozenset[str]) -> Element:
    name = f"cause:{each.id}"
    box = {
        "type": "checkbox",
        "name": name,
        "id": name,
        "value": each.title,
        "checked": each.id in ticked,
    }
    mended = [how for repair, how in repairs_told(bench) if repair.cause == each.id]
    figure = f"put right here: {mended[-1]}" if mended else percent(each.probability)
    place = f"{bench.model.blocks[each.block].title}, {KINDS[each.kind]}, {figure}"
    return h(
        "div",
        {"class": "tick"},
        h("input", box),
        h("label", {"for": name}, h("b", None, each.title), h("small", None, place)),
    )


def _all_others(bench: Bench, causes: list[RankedCause], shown: Shown) -> Element:
    """Return every other cause, to be found by words."""
    field = {
        "type": "search",
        "id": "cause-filter",
        "data-filter": "causes",
        "value": shown.filter,
        "autocomplete": "off",
    }
    rows = [
        h("div", {"data-words": f"{each.title} {bench.model.blocks[each.block].title}".lower()},
          _box(bench, each, frozenset()))
        for each in causes
    ]  # fmt: skip
    return h(
        "details",
        {"id": "other-causes"},
        h("summary", None, f"Something else: {len(causes)} other causes"),
        h("p", None, h("label", {"for": "cause-filter"}, "Find one by words "), h("input", field)),
        rows,
    )
