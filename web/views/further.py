"""The other checks that can be made, by what is best next, by gain, or by gain per minute."""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.diagnosis.advising.steps import AdvisedCheck
from web.views.desk.button import desk_button
from web.views.markup import button, h, shows
from web.views.state import Bench, Shown
from web.views.words import bits, minutes, worth

FIRST = 8
ORDERS = {"worth": "Best next", "gain": "What tells most", "minutes": "What tells most a minute"}


def further(bench: Bench, shown: Shown) -> Element:
    """Return the list of checks the kit allows."""
    at_hand = bench.check_at_hand(shown)
    others = [each for each in bench.ordered(shown.order) if not at_hand or each.id != at_hand.id]
    rows = others if shown.all_checks else others[:FIRST]
    return h(
        "section",
        {"class": "further", "id": "further", "aria-labelledby": "further-title"},
        h("h2", {"id": "further-title"}, "Or check instead"),
        _orders(shown.order),
        h("ul", {"class": "rows"}, [_row(each) for each in rows]),
        _more(shown, len(others)),
        _figures(rows),
        _by_what_you_have(bench),
        h("p", {"class": "row"}, desk_button("bench-to-desk")),
    )


def _orders(order: str) -> Element:
    rows = [
        button(
            words,
            {
                "id": f"order-{name}",
                "aria-pressed": str(name == order).lower(),
                **shows(order=name, check=None),
            },
        )
        for name, words in ORDERS.items()
    ]
    return h("p", {"class": "row", "role": "group", "aria-label": "Order"}, rows)


def _row(each: AdvisedCheck) -> Element:
    words = f"{worth(each.gain_bits)} · {minutes(each.minutes)}"
    return h(
        "li",
        {"id": f"further-{each.id}"},
        button(each.title, {"class": "pick", **shows("check-title", check=each.id)}),
        h("small", None, words),
    )


def _figures(rows: Sequence[AdvisedCheck]) -> Element | None:
    """Return the gains as figures, folded away."""
    lines = [h("li", None, f"{each.title}: {bits(each.gain_bits)}") for each in rows]
    if not lines:
        return None
    hint = "What each check tells about all causes together; one bit halves the doubt."
    return h(
        "details",
        {"id": "gains"},
        h("summary", None, "For the curious: what they tell, in bits"),
        h("p", {"class": "hint"}, hint),
        h("ul", None, lines),
    )


def _more(shown: Shown, count: int) -> Element | None:
    if count <= FIRST:
        return None
    words = "Show the first ones only" if shown.all_checks else "Show all checks"
    return button(words, {"id": "more-checks", **shows(all_checks=not shown.all_checks)})


def _by_what_you_have(bench: Bench) -> Element:
    kit = bench.case.kit
    owned, all_there_are = len(kit.instruments), len(bench.model.instruments)
    counted = f"{owned} of {all_there_are} instruments" if owned else "eyes and ears only"
    words = f"With {counted}, lid {kit.lid}. "
    return h(
        "p",
        {"class": "kit-line"},
        words,
        button("Change", {"aria-label": "Change what you have", **shows("title", screen="kit")}),
        h("span", {"data-later": "last-kit"}) if not owned else None,
    )
