"""The way to the help desk's letters, on the screens that have a case."""

from xml.etree.ElementTree import Element

from web.views.markup import button


def desk_button(name: str) -> Element:
    """Return the button that opens the letter to the owner; `name` is its id."""
    return button("Write to the owner of the set", {"id": name, "data-act": "write-owner"})
