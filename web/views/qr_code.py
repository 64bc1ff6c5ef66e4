"""A text as a QR code, drawn as one path: dark squares on a white ground, whatever the theme."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from xml.etree.ElementTree import Element

import segno

from web.views.markup import h

QUIET = 4  # modules of white around it, as the standard wants


def qr_code(text: str, label: str) -> Element | None:
    """Return the picture of a code, None where the text is too long for one (2,953 bytes)."""
    try:
        rows = [list(row) for row in segno.make(text, error="l", micro=False).matrix]
    except segno.DataOverflowError:
        return None
    size = len(rows) + 2 * QUIET
    return h(
        "svg",
        {"class": "qr", "viewBox": f"0 0 {size} {size}", "role": "img", "aria-label": label}
        | {"shape-rendering": "crispEdges"},
        h("rect", {"class": "qr-ground", "width": str(size), "height": str(size)}),
        h("path", {"class": "qr-dark", "d": "".join(_runs(rows))}),
    )


def _runs(rows: Sequence[Sequence[int]]) -> Iterator[str]:
    """Yield each run of dark squares in a row as a rectangle of the path."""
    for y, row in enumerate(rows):
        at = 0
        for is_dark, run in groupby(row):
            width = len(list(run))
            if is_dark:
                yield f"M{at + QUIET} {y + QUIET}h{width}v1h-{width}z"
            at += width
