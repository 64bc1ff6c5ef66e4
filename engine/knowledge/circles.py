"""Rules against circles: no signal depends on itself."""

from collections.abc import Iterable, Iterator
from itertools import pairwise

import networkx as nx

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.schema import Block, Family, Signal
from engine.knowledge.wording import Path

Hop = tuple[str, str]


def circle_problems(page: Page[Block]) -> Iterator[Problem]:
    """Yield signals of a block that depend on themselves inside it."""
    makes = page.model.makes
    hops = [(t, name) for name, signal in makes.items() for t in inputs(signal) if t in makes]
    for circle in circles(hops):
        yield _circle(page, ("makes", circle[0]), circle)


def family_circle_problems(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield signals that depend on themselves by way of other blocks."""
    blocks = draft.blocks()
    wires: dict[Hop, Path] = {}
    inside: list[Hop] = []
    for name in page.model.blocks:
        if name not in blocks:
            continue
        for signal_name, signal in blocks[name].model.makes.items():
            for taken in inputs(signal):
                made = f"{name}.{signal_name}"
                maker = page.model.wiring.get(name, {}).get(taken)
                if maker is None:
                    inside.append((f"{name}.{taken}", made))
                else:
                    wires[maker, made] = ("wiring", name, taken)
    for circle in circles([*wires, *inside]):
        crossing = [wires[hop] for hop in pairwise(circle) if hop in wires]
        if crossing:  # a circle inside one block is reported there
            yield _circle(page, crossing[0], circle)


def circles(hops: Iterable[Hop]) -> list[tuple[str, ...]]:
    """Return one circle out of each knot of names, beginning with its first name.

    >>> circles([("b", "a"), ("a", "b"), ("b", "c")])
    [('a', 'b', 'a')]
    """
    graph: nx.DiGraph[str] = nx.DiGraph(sorted(hops))
    found = []
    for knot in nx.strongly_connected_components(graph):
        inside: nx.DiGraph[str] = nx.DiGraph(sorted(graph.subgraph(knot).edges))
        if inside.number_of_edges():
            names = [hop[0] for hop in nx.find_cycle(inside)]
            start = names.index(min(names))
            found.append((*names[start:], *names[:start], names[start]))
    return sorted(found)


def inputs(signal: Signal) -> list[str]:
    """Return the names a signal depends on, sorted."""
    asked = {name for rule in signal.rules for name in rule.when}
    return sorted(asked | set(signal.takes))


def _circle(page: Page[Block] | Page[Family], path: Path, circle: tuple[str, ...]) -> Problem:
    remedy = "Break it: one of them must follow from causes or from other signals."
    found, expected = " -> ".join(circle), "signals that do not depend on themselves"
    return page.source.problem(path, found, expected, remedy)
