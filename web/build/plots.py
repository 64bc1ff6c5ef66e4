"""Plots as SVG: shares with their intervals, and chances told against how often they came true.

Marks differ in shape as well as in colour, so that they hold in print and for every eye.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from web.views.markup import h

WIDTH, LEFT, RIGHT, TOP = 360, 12, 348, 14
ROW, LABEL = 17, 15  # heights of a mark's row, and of the name above a group
SQUARE = 240  # of the plot of chances
RADIUS = 4


@dataclass(frozen=True, slots=True)
class Mark:
    """A figure with its interval; `series` is its number in the legend, from 0."""

    series: int
    at: float
    low: float
    high: float
    words: str


@dataclass(frozen=True, slots=True)
class Group:
    """Marks below one name."""

    name: str
    marks: tuple[Mark, ...]


def intervals(title: str, groups: Sequence[Group], most: float, ticks: Sequence[float]) -> Element:
    """Return a plot of groups of marks one below the other, on an axis from 0 to `most`."""
    height = TOP + sum(LABEL + ROW * len(group.marks) + 4 for group in groups) + 20

    def x(value: float) -> float:
        return LEFT + (RIGHT - LEFT) * min(value, most) / most

    drawn: list[Element] = [_tick(x(tick), height, f"{tick:g}") for tick in ticks]
    y = float(TOP)
    for group in groups:
        drawn.append(h("text", {"x": LEFT, "y": y + 10, "class": "plot-name"}, group.name))
        y += LABEL
        for mark in group.marks:
            middle = y + ROW / 2
            drawn += _whisker((x(mark.low), middle), (x(mark.high), middle), mark.series)
            drawn.append(_point(x(mark.at), middle, mark.series, mark.words))
            y += ROW
        y += 4
    return _plot(title, height, drawn)


def chances(title: str, series: Sequence[Sequence[tuple[float, Mark]]]) -> Element:
    """Return a plot of what was told (across) against what came true (up); on the line is right."""
    bottom = TOP + SQUARE

    def x(value: float) -> float:
        return LEFT + 30 + SQUARE * value

    def y(value: float) -> float:
        return bottom - SQUARE * value

    drawn = [
        h("path", {"class": "plot-right", "d": f"M{x(0)} {y(0)}L{x(1)} {y(1)}"}),
        h("path", {"class": "plot-axis", "d": f"M{x(0)} {y(1)}V{y(0)}H{x(1)}"}),
    ]
    for tick in (0.0, 0.5, 1.0):
        words = f"{100 * tick:g} %"
        place = {"y": bottom + 14, "text-anchor": "middle", "class": "plot-tick"}
        drawn.append(h("text", {"x": x(tick), **place}, words))
        place = {"y": y(tick) + 4, "text-anchor": "end", "class": "plot-tick"}
        drawn.append(h("text", {"x": x(0) - 4, **place}, words))
    for told, mark in (pair for points in series for pair in points):
        drawn += _whisker((x(told), y(mark.low)), (x(told), y(mark.high)), mark.series)
        drawn.append(_point(x(told), y(mark.at), mark.series, mark.words))
    return _plot(title, bottom + 22, drawn)


def legend(names: Iterable[str]) -> Element:
    """Return what the marks stand for, as a list."""
    return h(
        "ul",
        {"class": "plot-legend"},
        [
            h(
                "li",
                None,
                h(
                    "svg",
                    {"viewBox": "0 0 12 12", "width": 12, "height": 12, "aria-hidden": "true"},
                    _point(6, 6, number, ""),
                ),
                f" {name}",
            )
            for number, name in enumerate(names)
        ],
    )


def _plot(title: str, height: float, drawn: Sequence[Element]) -> Element:
    attributes = {"class": "plot", "viewBox": f"0 0 {WIDTH} {height:g}", "role": "img"}
    return h("svg", {**attributes, "aria-label": f"{title}. The table below says the same."}, drawn)


def _tick(x: float, height: float, words: str) -> Element:
    return h(
        "g",
        None,
        h("path", {"class": "plot-grid", "d": f"M{x:g} {TOP}V{height - 18:g}"}),
        h(
            "text",
            {"x": f"{x:g}", "y": f"{height - 6:g}", "text-anchor": "middle", "class": "plot-tick"},
            words,
        ),
    )


def _whisker(
    start: tuple[float, float], end: tuple[float, float], series: int
) -> tuple[Element, ...]:
    """Return the line of an interval."""
    line = f"M{start[0]:.1f} {start[1]:.1f}L{end[0]:.1f} {end[1]:.1f}"
    return (h("path", {"class": f"plot-whisker series-{series}", "d": line}),)


def _point(x: float, y: float, series: int, words: str) -> Element:
    """Return a mark: circle, square, diamond, triangle, cross, and so on again."""
    r = RADIUS
    shapes = (
        f"M{x - r:.1f} {y:.1f}a{r} {r} 0 1 0 {2 * r} 0a{r} {r} 0 1 0 {-2 * r} 0z",
        f"M{x - r:.1f} {y - r:.1f}h{2 * r}v{2 * r}h{-2 * r}z",
        f"M{x:.1f} {y - r - 1:.1f}l{r + 1} {r + 1}l{-r - 1} {r + 1}l{-r - 1} {-r - 1}z",
        f"M{x:.1f} {y - r:.1f}l{r} {2 * r}h{-2 * r}z",
        f"M{x - r:.1f} {y - r:.1f}l{2 * r} {2 * r}m0 {-2 * r}l{-2 * r} {2 * r}",
    )
    path = {"class": f"plot-mark series-{series}", "d": shapes[series % len(shapes)]}
    return h("path", path, h("title", None, words) if words else None)
