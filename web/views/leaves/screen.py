"""The screen of a leaf: where it stands, its heading, what it says, the way back."""

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from web.views.frame import heading, steps
from web.views.leaves.block_leaf import block_leaf
from web.views.leaves.cause_leaf import cause_leaf
from web.views.leaves.check_leaf import check_leaf
from web.views.leaves.contents import contents_leaf
from web.views.leaves.pieces import block_link, checks_of, link
from web.views.leaves.signal_leaf import signal_leaf
from web.views.markup import button, h, shows
from web.views.state import Shown

Leaf = tuple[str, str, str, Iterator[Element | None]]  # kind, block, title, what it says


def leaf_screen(
    model: SetModel, shown: Shown, has_case: bool, case: Case | None = None
) -> list[Element]:
    """Return the leaf that is open, or the contents; `case` is one of this set."""
    kind, block, title, parts = _leaf(model, shown, case)
    return [
        *([steps("knowledge")] if has_case else []),
        h(
            "article",
            {"class": "leaf", "id": "leaf"},
            _where(model, kind, block),
            heading(title),
            [part for part in parts if part is not None],
        ),
        _ways_out(model, shown, has_case),
    ]


def _leaf(model: SetModel, shown: Shown, case: Case | None) -> Leaf:
    """Return the leaf that is asked for; one that this set has not gives the contents."""
    kind, _, name = shown.leaf.partition("/")
    if kind == "block" and name in model.blocks:
        return "Block", "", model.blocks[name].title, block_leaf(model, model.blocks[name])
    if kind == "cause" and name in model.causes:
        cause = model.causes[name]
        return "Cause", cause.block, cause.title, cause_leaf(model, cause)
    if kind == "signal" and name in model.signals:
        signal = model.signals[name]
        return "Signal", name.partition(".")[0], signal.title, signal_leaf(model, signal)
    checks = checks_of(model) if kind == "check" else {}
    if name.partition("@")[0] in checks:
        check = checks[name.partition("@")[0]]
        word = "Symptom" if check.kind == "symptom" else "Check"
        return word, check.block, check.title, check_leaf(model, check, case, shown.unfolded)
    return "", "", model.family.title, contents_leaf(model, shown.seek)


def _where(model: SetModel, kind: str, block: str) -> Element | None:
    """Return the way from the set down to this leaf."""
    if not kind:
        return h("p", {"class": "over"}, "What is known of the set")
    steps_down = [link("", model.family.title)]
    if block:
        steps_down.append(block_link(model, block))
    items = [h("li", None, each) for each in steps_down]
    return h(
        "nav",
        {"class": "trail", "aria-label": "Where this stands"},
        h("ol", None, items, h("li", {"aria-current": "page"}, kind)),
    )


def _ways_out(model: SetModel, shown: Shown, has_case: bool) -> Element:
    back = ("Back to the bench", "bench") if has_case else ("Back to the sets", "home")
    kind, _, name = shown.leaf.partition("/")
    makes = kind == "check" and has_case and name in model.checks
    check = {"screen": "bench", "check": name}
    return h(
        "p",
        {"class": "row ways-out"},
        button("Make this check now", shows("check-title", **check)) if makes else None,
        button(back[0], {"id": "leave-leaf", **shows("title", screen=back[1])}),
        button("Print this leaf", {"data-act": "print"}),
    )
