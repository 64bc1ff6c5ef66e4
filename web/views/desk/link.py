"""A link that was opened: what it carries, before anything is done with it."""

from xml.etree.ElementTree import Element

from engine.diagnosis.model import SetModel
from web.links import Link
from web.replaying import Replayed
from web.views.frame import heading
from web.views.markup import button, h
from web.views.state import said

OTHER_BROWSER = (
    "It answers a case that is not in this browser, so it is opened as one of its own, with the "
    "answers entered."
)


def link_screen(model: SetModel, link: Link, state: Replayed) -> list[Element | None]:
    """Return the screen: nothing here is replaced by opening the case."""
    rows = [
        h("li", None, f"{model.checks[each.check].lead_in} {said(model, each)}")
        for each in state.case.all_findings()
    ]
    title = "A case came with this link" if not link.answers else "An answer came with this link"
    return [
        heading(title),
        h("p", {"class": "lead"}, f"Set: {model.family.title}."),
        h("p", None, OTHER_BROWSER) if link.answers else None,
        h("h2", None, "What was found so far") if rows else None,
        h("ul", None, rows) if rows else h("p", None, "Nothing was found yet."),
        _set_aside(state),
        h("p", None, "Your own cases stay as they are."),
        h(
            "p",
            {"class": "row"},
            button(
                "Open it as a new case",
                {"class": "main", "id": "open-linked", "data-act": "open-linked"},
            ),
            button("Leave it", {"id": "leave-linked", "data-act": "leave-linked"}),
        ),
    ]


def _set_aside(state: Replayed) -> Element | None:
    """Return what this version of the knowledge cannot use."""
    if not state.set_aside:
        return None
    rows = [h("li", None, words) for words in state.set_aside]
    return h("div", None, h("p", None, "This version cannot use:"), h("ul", None, rows))
