"""The fault tree of a symptom as a drawing: from the symptom by gates to causes, left to right.

A gate is a word on the way: "any one of" or "both". Cut at a readable depth; each cut says how much
is behind it and unfolds when pressed. The nested list of the leaf says the same.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby
from textwrap import wrap
from xml.etree.ElementTree import Element

from engine.diagnosis.model import SetModel
from web.views.diagram import shade
from web.views.markup import h, shows
from web.views.words import percent

Event = tuple[str, str]  # a cause in one of its ways
Chances = Mapping[Event, float]
BLOCKS, CAUSES, PAIRS = 6, 3, 2  # drawn before anything is unfolded
ALL_BLOCKS, ALL_PAIRS = "all blocks", "all pairs"  # what can be unfolded besides one block
ROW, BOX = 50, 42
TOP_X, GROUP_X, CAUSE_X = 8, 284, 590
TOP_WIDTH, GROUP_WIDTH, CAUSE_WIDTH = 170, 212, 340
GATE_WIDTH, GATE = 78, 24
LETTER = 7.2  # width of one, about


@dataclass(frozen=True, slots=True)
class Leaf:
    """One line at the right: words, its chance (None for a cut), what a press opens."""

    words: str
    chance: float | None
    opens: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Group:
    """What hangs together below the top: a block with its causes, or two causes together."""

    words: str
    gate: str  # "any one of", "both"; empty for a cut
    chance: float | None
    leaves: tuple[Leaf, ...]
    opens: Mapping[str, object]


def tree_picture(
    model: SetModel, title: str, sets: Iterable[tuple[Event, ...]], now: Chances, unfolded: str
) -> Element:
    """Return the drawing of the minimal cut sets of one and two causes, in a box that scrolls."""
    groups = [*groups_of(model, [*sets], now, unfolded)]
    rows = sum(max(len(group.leaves), 1) for group in groups)
    height, width = rows * ROW + 16, CAUSE_X + CAUSE_WIDTH + 8
    box = {
        "class": "tree-box",
        "tabindex": "0",
        "role": "region",
        "aria-label": "Fault tree, drawn",
        "id": "tree-picture",
    }
    about = {"viewBox": f"0 0 {width} {height}", "width": width, "height": height}
    said = {"role": "img", "aria-label": "Fault tree as a drawing; the list below has every cause"}
    return h("div", box, h("svg", {"class": "fault-tree", **about, **said}, _all(title, groups)))


def groups_of(
    model: SetModel, sets: list[tuple[Event, ...]], now: Chances, unfolded: str
) -> Iterator[Group]:
    """Yield what is drawn, the likeliest block first, then causes that only act together."""

    def block_of(events: tuple[Event, ...]) -> str:
        return model.causes[events[0][0]].block

    alone = sorted((each for each in sets if len(each) == 1), key=block_of)
    blocks = [_block(model, name, [e for (e,) in rows], now, unfolded)
              for name, rows in groupby(alone, block_of)]  # fmt: skip
    ranked = sorted(blocks, key=lambda group: (-(group.chance or 0.0), group.words))
    shown = ranked if unfolded == ALL_BLOCKS else ranked[:BLOCKS]
    yield from shown
    if len(ranked) > len(shown):
        yield _cut(f"{len(ranked) - len(shown)} more blocks", ALL_BLOCKS)
    pairs = [each for each in sets if len(each) == 2]
    together = pairs if unfolded == ALL_PAIRS else pairs[:PAIRS]
    for pair in together:
        leaves = tuple(_leaf(model, event, now) for event in pair)
        yield Group("Two together", "both", None, leaves, {})
    if len(pairs) > len(together):
        yield _cut(f"{len(pairs) - len(together)} more pairs", ALL_PAIRS)


def _block(model: SetModel, name: str, events: list[Event], now: Chances, unfolded: str) -> Group:
    """Return a block with its likeliest causes, or with all of them when it is unfolded."""
    ranked = sorted(events, key=lambda event: (-now[event], event))
    shown = ranked if unfolded == name else ranked[:CAUSES]
    leaves = [_leaf(model, event, now) for event in shown]
    if len(ranked) > len(shown):
        more = f"{len(ranked) - len(shown)} more"
        leaves.append(Leaf(f"and {more}: unfold", None, shows("tree-picture", unfolded=name)))
    total = min(sum(now[event] for event in events), 1.0)
    opens = shows("title", leaf=f"block/{name}")
    gate = "any one of" if len(events) > 1 else ""
    return Group(model.blocks[name].title, gate, total, tuple(leaves), opens)


def _leaf(model: SetModel, event: Event, now: Chances) -> Leaf:
    cause, way = event
    text = model.causes[cause]
    as_way = f" ({text.ways[way]})" if len(text.ways) > 1 else ""
    return Leaf(f"{text.title}{as_way}", now[event], shows("title", leaf=f"cause/{cause}"))


def _cut(words: str, unfolds: str) -> Group:
    return Group(f"{words}: unfold", "", None, (), shows("tree-picture", unfolded=unfolds))


# ---- drawing


def _all(title: str, groups: list[Group]) -> Iterator[Element]:
    """Yield every line, gate and box; wires first, so that boxes lie on top."""
    top_y = 8
    gate_x = TOP_X + TOP_WIDTH + 14
    yield _box((TOP_X, top_y, TOP_WIDTH), title, None, {}, "top")
    y = top_y
    for group in groups:
        yield _wire((TOP_X + TOP_WIDTH, top_y + BOX // 2), (GROUP_X, y + BOX // 2), gate_x + 39)
        yield from _group(group, y)
        y += ROW * max(len(group.leaves), 1)
    if len(groups) > 1:
        yield _gate(gate_x, top_y, "any one of")


def _group(group: Group, y: int) -> Iterator[Element]:
    kind = "group" if group.leaves else "cut"
    yield _box((GROUP_X, y, GROUP_WIDTH), group.words, group.chance, group.opens, kind)
    gate_x = GROUP_X + GROUP_WIDTH + 8
    for number, leaf in enumerate(group.leaves):
        at = y + number * ROW
        start = (GROUP_X + GROUP_WIDTH, y + BOX // 2)
        yield _wire(start, (CAUSE_X, at + BOX // 2), gate_x + GATE_WIDTH // 2)
        kind = "leaf" if leaf.chance is not None else "cut"
        yield _box((CAUSE_X, at, CAUSE_WIDTH), leaf.words, leaf.chance, leaf.opens, kind)
    if group.gate:
        yield _gate(gate_x, y, group.gate)


def _wire(start: tuple[int, int], end: tuple[int, int], bend: int) -> Element:
    (x1, y1), (x2, y2) = start, end
    return h("path", {"class": "branch", "d": f"M{x1} {y1}H{bend}V{y2}H{x2}"})


def _gate(x: int, y: int, words: str) -> Element:
    """Return a gate: round for any one of, square for both."""
    round_ = GATE // 2 if words != "both" else 2
    top = y + (BOX - GATE) // 2
    return h(
        "g",
        {"class": "gate"},
        h("rect", {"x": x, "y": top, "width": GATE_WIDTH, "height": GATE, "rx": round_}),
        h("text", {"x": x + GATE_WIDTH // 2, "y": top + 16}, words),
    )


def _box(
    place: tuple[int, int, int],
    words: str,
    chance: float | None,
    opens: Mapping[str, object],
    kind: str,
) -> Element:
    """Return a box with its words in two lines at most and its chance at the right."""
    x, y, width = place
    figure = percent(chance) if chance is not None else ""
    letters = int((width - 16) / LETTER) - (len(figure) + 2 if figure else 0)
    lines = wrap(words, letters, max_lines=2, placeholder=" …")
    first = y + BOX // 2 + (5 if len(lines) == 1 else -3)
    return h(
        "g",
        {"class": f"event {kind} {shade(chance) if chance is not None else ''}", **opens},
        h("title", None, f"{words}{f': {figure}' if figure else ''}"),
        h("rect", {"x": x, "y": y, "width": width, "height": BOX, "rx": 8}),
        [h("text", {"x": x + 8, "y": first + 15 * n}, line) for n, line in enumerate(lines)],
        h("text", {"x": x + width - 8, "y": y + BOX // 2 + 5, "class": "chance"}, figure),
    )
