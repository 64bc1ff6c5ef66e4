"""The signals of a family as a graph: what follows from what, and what a level travels along."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

import networkx as nx

from engine.knowledge.circles import inputs
from engine.knowledge.schema import Block, Cause, Family
from engine.knowledge.states import effects

LEVELS = frozenset({"power", "rf", "audio", "quality"})  # what a level may travel along


@dataclass(frozen=True, slots=True, eq=False)
class SignalPaths:
    """Signals by global name; edges go the way the signal goes."""

    graph: "nx.DiGraph[str]"
    levels: "nx.DiGraph[str]"  # without frequencies and controls

    def before(self, signals: Iterable[str]) -> set[str]:
        """Return all that these signals follow from, without themselves."""
        return {each for signal in signals for each in _far(self.graph, signal, "before")}

    def behind(self, signals: Iterable[str]) -> set[str]:
        """Return all that follows from these signals, without themselves."""
        return {each for signal in signals for each in _far(self.graph, signal, "behind")}

    def moved(self, signals: Iterable[str]) -> set[str]:
        """Return these signals and all whose level goes with theirs."""
        start = [signal for signal in signals if signal in self.levels]
        return {*start, *(each for one in start for each in _far(self.levels, one, "behind"))}

    def joining(self, signals: Collection[str]) -> set[str]:
        """Return what enters the way of these signals from outside."""
        way = self.behind(signals)
        entering = {each for one in way for each in self.graph.predecessors(one)}
        return entering - way - set(signals) - self.before(signals)


def signal_paths(family: Family, blocks: Mapping[str, Block]) -> SignalPaths:
    """Return the graph of a family's signals, its blocks as it has them."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    levels: nx.DiGraph[str] = nx.DiGraph()
    for name, block in blocks.items():
        for made in block.makes:
            graph.add_node(f"{name}.{made}")
            if block.makes[made].carries in LEVELS:
                levels.add_node(f"{name}.{made}")
    for hop in _hops(family, blocks):
        graph.add_edge(*hop)
        if all(end in levels for end in hop):
            levels.add_edge(*hop)
    return SignalPaths(graph, levels)


def global_signal(family: Family, blocks: Mapping[str, Block], block: str, name: str) -> str | None:
    """Return the global name of a signal a block needs or makes, None for what is neither."""
    if block in blocks and name in blocks[block].makes:
        return f"{block}.{name}"
    return family.wiring.get(block, {}).get(name)


def made_by(block: str, cause: Cause) -> set[str]:
    """Return the signals that a cause harms, by global name."""
    return {f"{block}.{signal}" for effect in effects(cause).values() for signal in effect}


def _hops(family: Family, blocks: Mapping[str, Block]) -> Iterator[tuple[str, str]]:
    for name, block in blocks.items():
        for made, signal in block.makes.items():
            for taken in inputs(signal):
                origin = global_signal(family, blocks, name, taken)
                if origin is not None:
                    yield origin, f"{name}.{made}"


@cache
def _far(graph: "nx.DiGraph[str]", signal: str, way: str) -> frozenset[str]:
    if signal not in graph:
        return frozenset()
    reached = nx.ancestors(graph, signal) if way == "before" else nx.descendants(graph, signal)
    return frozenset(reached)
