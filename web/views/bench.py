"""The bench: the next check, the causes, the drawing, what was found."""

from xml.etree.ElementTree import Element

from web.views.block_panel import opened_block
from web.views.causes import causes
from web.views.check import check_at_hand
from web.views.costs import costs_box
from web.views.desk.button import at_owner
from web.views.findings import findings
from web.views.frame import heading, steps
from web.views.frequencies import frequencies
from web.views.further import further
from web.views.here_before import here_before
from web.views.keys import keys_panel
from web.views.kinds import kinds
from web.views.leaf_button import contents_button
from web.views.markup import h
from web.views.mending import mended_card
from web.views.own.unticked import unticked
from web.views.plan import plan_button
from web.views.several import several_box
from web.views.state import Bench, Shown
from web.views.timeline import timeline_place
from web.views.verdict import verdict


def bench_screen(bench: Bench, shown: Shown) -> list[Element]:
    """Return the bench. Parts with `data-later` are filled once this is on screen."""
    return [
        steps("bench"),
        heading("On the bench"),
        h("div", {"class": "bench"}, _to_do(bench, shown), _known(bench, shown)),
        timeline_place(),
        *([] if bench.step.kinds else [_map(bench, shown)]),  # no two kinds are laid out alike
    ]


def _to_do(bench: Bench, shown: Shown) -> Element:
    """Return the left side: where one stands, and what to do next."""
    return h(
        "div",
        {"class": "left"},
        verdict(bench),
        unticked(bench),
        at_owner(bench),
        mended_card(bench),
        here_before(bench, shown),
        check_at_hand(bench, shown),
        several_box(shown),
        further(bench, shown),
        costs_box(bench, shown),
        keys_panel(),
    )


def _known(bench: Bench, shown: Shown) -> Element:
    """Return the right side: what it may be, and what was found."""
    return h(
        "div",
        {"class": "right"},
        kinds(bench),
        causes(bench, shown),
        frequencies(bench),
        _stories(),
        findings(bench),
    )


def _map(bench: Bench, shown: Shown) -> Element:
    family = bench.model.family.id
    plan = plan_button(family, "to-plan") if bench.model.plan else None
    return h(
        "section",
        {"class": "map", "aria-labelledby": "map-title"},
        h("h2", {"id": "map-title"}, "Where in the set"),
        h("p", {"class": "row"}, plan, contents_button(family, "to-leaves")),
        opened_block(bench, shown),
        h("div", {"class": "map-parts", "data-later": "map", "id": "map"}),
    )


def _stories() -> Element:
    return h(
        "section",
        {"class": "stories", "aria-labelledby": "stories-title"},
        h("h2", {"id": "stories-title"}, "Taken together"),
        h("div", {"data-later": "joint", "id": "joint"}),
    )
