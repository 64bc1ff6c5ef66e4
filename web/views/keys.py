"""The keys of the bench: what they do, and how to be rid of them."""

from xml.etree.ElementTree import Element

from web.views.markup import button, h

KEYS = (
    ("1 to 9", "the answer with that number"),
    ("N", "cannot check, or not sure"),
    ("R", "to the field of a reading; Enter enters it"),
    ("/", "to the box for several readings; among the symptoms to the search for a word"),
    ("U", "undo the last entry"),
    ("G, B", "to the next screen, and back"),
    ("C, F, D", "to the causes, to what was found, to the drawing"),
    ("S, M", "when something is only supposed: back, or make it so"),
    ("Esc", "out of a field or a list, back to the check"),
    ("?", "this list"),
    ("Arrows", "from block to block in the drawing; Enter opens one"),
)
MOST = 9  # answers that have a key


def key(number: int) -> Element | None:
    """Return the mark of the key on the button of an answer, counted from 1."""
    return h("kbd", {"aria-hidden": "true"}, str(number)) if number <= MOST else None


def shortcut(number: int) -> str | None:
    """Return the key of an answer as the button tells it to a screen reader."""
    return str(number) if number <= MOST else None


def keys_panel() -> Element:
    """Return the list of keys, folded away, with its switch."""
    rows = [(h("dt", None, h("kbd", None, name)), h("dd", None, does)) for name, does in KEYS]
    return h(
        "details",
        {"class": "keys", "id": "keys"},
        h("summary", {"id": "keys-title"}, "Keys"),
        h("p", {"class": "hint"}, "They are silent while you type in a field."),
        h("dl", {"class": "how"}, [part for pair in rows for part in pair]),
        button("Switch single keys off", {"class": "keys-off", "data-act": "keys-off"}),
        button("Switch single keys on", {"class": "keys-on", "data-act": "keys-on"}),
    )
