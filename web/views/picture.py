"""The picture of the check at hand, folded, with the same in words."""

from xml.etree.ElementTree import Element

from engine.diagnosis.model import CheckText
from web.views.drawings.meters import READING
from web.views.drawings.picking import has_meter, picture_of
from web.views.drawings.shapes import Drawing, svg
from web.views.markup import h


def picture(check: CheckText) -> Element | None:
    """Return what can be unfolded, filled after the repaint; None when no drawing fits."""
    drawing = picture_of(check)
    parts = [_folded(drawing, "picture", f"Picture: {drawing.title}")] if drawing else []
    if has_meter(check):
        parts.append(_folded(READING, "meter-picture", READING.title))
    return h("div", {"class": "pictures"}, parts) if parts else None


def _folded(drawing: Drawing, name: str, words: str) -> Element:
    return h(
        "details",
        {"id": f"{name}-box", "class": "picture"},
        h("summary", None, words),
        h(
            "div",
            {"class": "picture-parts"},
            svg(drawing, name),
            h("ol", None, [h("li", None, each) for each in drawing.steps]),
        ),
    )
