"""The way to the screen that says how the ranking comes about."""

from xml.etree.ElementTree import Element

from web.views.markup import button, h, shows


def decides_button() -> Element:
    """Return the button below the causes."""
    opens = shows("title", screen="decides")
    return h("p", {"class": "row"}, button("How does it decide?", {"id": "to-decides", **opens}))
