"""The set as a drawing: each block coloured and labelled by how likely the fault is in it."""

from collections.abc import Mapping
from textwrap import wrap
from xml.etree.ElementTree import Element

from engine.diagnosis.model import BlockText, SetModel
from web.views.markup import button, h, shows
from web.views.words import percent, short_percent

PITCH_X, PITCH_Y = 150, 100
WIDTH, HEIGHT = 134, 78
MARGIN = 14
LINES, LINE_LETTERS = 3, 17
HEAT = (0.02, 0.05, 0.15, 0.4, 0.7)  # upper ends of the shades


def shade(probability: float) -> str:
    """Return the class of a shade, from `heat-0` (cold) to `heat-5`.

    >>> shade(0.0), shade(0.5), shade(1.0)
    ('heat-0', 'heat-4', 'heat-5')
    """
    return f"heat-{sum(probability >= limit for limit in HEAT)}"


def places(model: SetModel) -> list[BlockText]:
    """Return the blocks in which something can be put right: events alone make no place."""
    repairable = {cause.block for cause in model.causes.values() if cause.kind != "event"}
    return [block for block in model.blocks.values() if block.id in repairable]


def diagram(model: SetModel, blocks: Mapping[str, float], opened: str | None) -> Element:
    """Return the drawing as SVG; the list of `block_list` says the same in text."""
    drawn = places(model)
    first = opened if opened in {each.id for each in drawn} else drawn[0].id
    columns = 1 + max(block.at[0] for block in drawn)
    rows = 1 + max(block.at[1] for block in drawn)
    width = 2 * MARGIN + columns * PITCH_X - (PITCH_X - WIDTH)
    height = 2 * MARGIN + rows * PITCH_Y - (PITCH_Y - HEIGHT)
    return h(
        "svg",
        {
            "class": "drawing",
            "viewBox": f"0 0 {width} {height}",
            "width": width,
            "height": height,
            "role": "group",
            "aria-label": "Drawing of the set; the list beside it says the same",
        },
        h("g", {"class": "wires"}, [_wire(model, edge, opened) for edge in model.edges]),
        [
            _block(block, blocks[block.id], (opened, first), _points(model, block))
            for block in drawn
        ],
    )


def _corner(block: BlockText) -> tuple[int, int]:
    return MARGIN + block.at[0] * PITCH_X, MARGIN + block.at[1] * PITCH_Y


def _wire(model: SetModel, edge: tuple[str, str, str], opened: str | None) -> Element:
    """Return the wire of an edge: maker, needing block, what it carries."""
    maker, needing, carries = edge
    touched = " touched" if opened in (maker, needing) else ""
    path = _path(_corner(model.blocks[maker]), _corner(model.blocks[needing]))
    return h("path", {"d": path, "class": f"wire {carries}{touched}"})


def _path(start: tuple[int, int], end: tuple[int, int]) -> str:
    """Return a path between two blocks, from edge to edge, given their corners."""
    (x1, y1), (x2, y2) = start, end
    if x1 == x2:
        upper, lower = sorted((y1, y2))
        return f"M{x1 + WIDTH // 2} {upper + HEIGHT}V{lower}"
    x1, x2 = (x1 + WIDTH, x2) if x2 > x1 else (x1, x2 + WIDTH)
    y1, y2 = y1 + HEIGHT // 2, y2 + HEIGHT // 2
    middle = (x1 + x2) // 2
    return f"M{x1} {y1}C{middle} {y1} {middle} {y2} {x2} {y2}"


def _points(model: SetModel, block: BlockText) -> int:
    """Return at how many places of a block something can be read or looked at."""
    inside = (each for each in model.checks.values() if each.block == block.id)
    return len({each.where for each in inside if each.where})


def _block(
    block: BlockText, probability: float, marked: tuple[str | None, str | None], points: int
) -> Element:
    """Return a block; of `marked` the first is opened, the second is the stop of the tab key."""
    x, y = _corner(block)
    is_open = block.id == marked[0]
    counted = f"{points} test point{'' if points == 1 else 's'}"
    lines, chance = _lines(block.title), short_percent(probability)
    spans = [
        h("text", {"x": WIDTH // 2, "y": 17 + 14 * number, "class": "label"}, line)
        for number, line in enumerate(lines)
    ]
    return h(
        "g",
        {
            "transform": f"translate({x} {y})",
            "class": f"block {shade(probability)}{' opened' if is_open else ''}",
            "id": f"block-{block.id}",
            "data-block": block.id,
            "role": "button",
            "tabindex": "0" if block.id == marked[1] else "-1",
            "aria-label": f"{block.title}: {percent(probability)}, {counted}",
            **_opens(block, is_open),
        },
        h("title", None, f"{block.title}: {percent(probability)}"),
        h("rect", {"width": WIDTH, "height": HEIGHT, "rx": "9"}),
        spans,
        h("text", {"x": WIDTH // 2, "y": HEIGHT - 9, "class": "chance"}, chance),
        _pins(points),
    )


def _opens(block: BlockText, is_open: bool) -> dict[str, object]:
    """Return what opens a block, from the drawing or the list, and goes to it; or closes it."""
    return shows(None if is_open else "opened-block-title", block=None if is_open else block.id)


def _pins(points: int) -> Element | None:
    """Return the mark of test points: a pin at the lower right corner with their number."""
    if not points:
        return None
    x, y = WIDTH - 12, HEIGHT - 14
    return h(
        "g",
        {"class": "pins", "aria-hidden": "true"},
        h("circle", {"cx": x, "cy": y, "r": 9}),
        h("text", {"x": x, "y": y + 4}, str(points)),
    )


def _lines(title: str) -> list[str]:
    """Return a title in lines that fit the block."""
    return wrap(title, LINE_LETTERS, max_lines=LINES, placeholder=" …")


def block_list(model: SetModel, blocks: Mapping[str, float], opened: str | None) -> Element:
    """Return the blocks as a list of buttons, the likeliest first."""
    ranked = sorted(places(model), key=lambda block: (-round(blocks[block.id], 9), block.id))
    rows = [
        h(
            "li",
            {"class": shade(blocks[block.id])},
            button(
                block.title,
                {
                    "aria-expanded": str(block.id == opened).lower(),
                    "id": f"to-block-{block.id}",
                    **_opens(block, block.id == opened),
                },
                h("span", {"class": "figure"}, percent(blocks[block.id])),
            ),
        )
        for block in ranked
    ]
    return h(
        "ol",
        {"class": "block-list", "aria-label": "Blocks by how likely the fault is in them"},
        rows,
    )
