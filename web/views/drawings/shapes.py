"""What the drawings are made of: boxes, leads, words; in units of a 360 by 210 field."""

from collections.abc import Iterable
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from web.views.markup import h

WIDTH, HEIGHT = 360, 210
LINE = 16  # from one line of words to the next


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing; `steps` say in words all that it shows."""

    title: str
    steps: tuple[str, ...]
    shapes: tuple[Element, ...]


def svg(drawing: Drawing, name: str) -> Element:
    """Return the drawing as SVG; `name` makes its ids its own."""
    about = {"role": "img", "aria-labelledby": f"{name}-title {name}-desc", "class": "step-drawing"}
    return h(
        "svg",
        {**about, "viewBox": f"0 0 {WIDTH} {HEIGHT}"},
        h("title", {"id": f"{name}-title"}, drawing.title),
        h("desc", {"id": f"{name}-desc"}, " ".join(drawing.steps)),
        drawing.shapes,
    )


def box(place: tuple[int, int, int, int], words: Iterable[str] = (), kind: str = "part") -> Element:
    """Return a box at x, y of a width and height, its words in the middle."""
    x, y, width, height = place
    lines = tuple(words)
    top = y + height / 2 - LINE * (len(lines) - 1) / 2 + 5
    at = x + width / 2
    return h(
        "g",
        None,
        h("rect", {"class": kind, "x": x, "y": y, "width": width, "height": height, "rx": 8}),
        [note(at, top + LINE * n, line) for n, line in enumerate(lines)],
    )


def note(x: float, y: float, words: str, kind: str = "") -> Element:
    """Return words whose middle is at x, on the line y."""
    return h("text", {"x": f"{x:g}", "y": f"{y:g}", "class": kind or None}, words)


def lead(path: str, kind: str = "plus") -> Element:
    """Return a lead: `plus` drawn through, `minus` dashed, `coax` thick."""
    return h("path", {"class": f"lead {kind}", "d": path})


def tip(x: int, y: int) -> Element:
    """Return the spot that a tip touches."""
    return h("circle", {"class": "tip", "cx": x, "cy": y, "r": 5})


def meter(x: int, y: int, shows: str, range_: str) -> Element:
    """Return a multimeter, 96 wide and 120 high; leads leave it at x + 24 and x + 72 below."""
    return h(
        "g",
        None,
        box((x, y, 96, 120), kind="tool"),
        box((x + 10, y + 10, 76, 34), [shows], "screen"),
        h("circle", {"class": "knob", "cx": x + 48, "cy": y + 72, "r": 18}),
        h("path", {"class": "lead plus", "d": f"M{x + 48} {y + 72}V{y + 58}"}),
        note(x + 48, y + 104, range_),
        note(x + 24, y + 116, "−", "small"),
        note(x + 72, y + 116, "+", "small"),
    )


def cross(x: int, y: int) -> Element:
    """Return a mark for what must not be done."""
    return lead(
        f"M{x - 10} {y - 10}L{x + 10} {y + 10}M{x + 10} {y - 10}L{x - 10} {y + 10}", "never"
    )
