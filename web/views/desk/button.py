"""The way to the help desk's letters, on the screens that have a case."""

from xml.etree.ElementTree import Element

from web.views.markup import button, h
from web.views.state import Bench


def desk_button(name: str) -> Element:
    """Return the button that opens the letter to the owner; `name` is its id."""
    return button("Write to the owner of the set", {"id": name, "data-act": "write-owner"})


def at_owner(bench: Bench) -> Element | None:
    """Return where a case by letter stands, with the way to the next one; None without letters."""
    if not bench.letters.post:
        return None
    known = [check for check in bench.letters.asked if check in bench.model.checks]
    waiting = sum(bench.finding(check) is None for check in known)
    verb = "has" if waiting == 1 else "have"
    told = f"{waiting} of the {len(known)} questions asked {verb} no answer yet."
    words = told if waiting else "All that was asked is answered."
    return h(
        "section",
        {"class": "card", "id": "at-owner", "aria-label": "Letters"},
        h("p", None, h("b", None, "The set is with its owner. "), words),
        h("p", {"class": "row"}, desk_button("bench-to-owner")),
    )
