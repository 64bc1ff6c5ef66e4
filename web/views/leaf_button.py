"""The ways into the knowledge, from the screens that the page starts with."""

from xml.etree.ElementTree import Element

from web.views.markup import button, shows

OPENS = "Leaf through what is known"
AUTHORS = "Try knowledge of your own"


def contents_button(family: str, name: str) -> Element:
    """Return the button that opens all that is known of a family; `name` is the button's own id."""
    return button(OPENS, {"id": name, **shows("title", screen="knowledge", family=family, leaf="")})


def leaf_button(words: str, family: str, leaf: str) -> Element:
    """Return the button that opens one leaf, such as `cause/driver.driver-core`."""
    return button(words, shows("title", screen="knowledge", family=family, leaf=leaf))


def authors_button(name: str) -> Element:
    """Return the button that opens the screen for authors; `name` is the button's own id."""
    return button(AUTHORS, {"id": name, **shows("title", screen="own")})
