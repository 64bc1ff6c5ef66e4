"""When to stop, and whom to ask: beside a check that not everybody should make."""

from xml.etree.ElementTree import Element

from engine.diagnosis.case import Kit
from engine.diagnosis.model import CheckText
from web.views.markup import h
from web.views.words import listed

SIMPLE = frozenset(("multimeter",))  # with no more than this, the box is open
WHOM = (
    "Not sure? Stop here. Nothing is lost: “Cannot check, or not sure” goes on without this "
    "step. Ask a radio club, or a repairer who is licensed or qualified where you live. What you "
    "may do yourself, to a transmitter above all, is in the rules of your country."
)
REASONS = (
    (lambda check: check.lid == "off", "the lid off"),
    (lambda check: check.mode == "transmit", "the set to send"),
    (lambda check: "solder" in f"{check.how} {check.where}".lower(), "a soldering iron"),
    (lambda check: "mains-supply" in check.cautions, "work near the mains"),
    (lambda check: "aerial-work" in check.cautions, "work at an aerial"),
)


def asks_for(check: CheckText) -> tuple[str, ...]:
    """Return what a check takes that not everybody can or may do."""
    return tuple(words for holds, words in REASONS if holds(check))


def when_to_stop(kit: Kit, check: CheckText) -> Element | None:
    """Return the box; open for whoever has little, folded for a whole bench; None if harmless."""
    needed = asks_for(check)
    if not needed:
        return None
    is_open = kit.instruments <= SIMPLE
    return h(
        "details",
        {"class": "stopping", "id": f"stop-{check.id}", "open": is_open},
        h("summary", None, f"When to stop: this step takes {listed(needed)}"),
        h("p", None, WHOM),
    )
