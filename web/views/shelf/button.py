"""The way to the shelf of cases, on the screens that the page starts with."""

from xml.etree.ElementTree import Element

from web.views.markup import button, shows


def shelf_button(words: str, name: str) -> Element:
    """Return the button that opens the shelf; `name` is its id."""
    return button(words, {"id": name, **shows("title", screen="shelf", filter="", check=None)})


def closing_button(name: str) -> Element:
    """Return the button that asks what the case at hand came to; `name` is its id."""
    view = shows("title", screen="closing", filter="")
    return button("Close the case: say what it was", {"id": name, **view})
