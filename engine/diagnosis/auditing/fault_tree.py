"""The fault tree of a signal: what puts it into some of its states, down to the causes.

Each gate is a signal of the family and means: it is in one of these states. It gets there by any
of its inputs; a rule needs all of its conditions. Where a worse state would not count as the event,
something worse can hide it: such a tree is read with that in mind. The chances of the gates are
those of the network, so they hold all the same.

References:
    Vesely et al., Fault Tree Handbook, NUREG-0492 (1981), chapters IV and VII.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from math import prod

from engine.diagnosis.evidence import calibrated
from engine.diagnosis.making.building import (
    build_network,
    global_name,
    unlisted_name,
    unlisted_signals,
)
from engine.diagnosis.model import SetModel
from engine.inference.cut_sets import minimal_cut_sets
from engine.inference.network import Network
from engine.inference.propagation import Calibration
from engine.knowledge.library import Library
from engine.knowledge.schema import Block, Family, Rule
from engine.knowledge.states import effects

LARGEST_CUT_SET = 2


@dataclass(frozen=True, slots=True)
class Branch:
    """One event of the tree: a gate (`any`, `all`), a `cause`, a signal `given` or drawn `above`.

    `name` is in one of `states` with this chance.
    """

    kind: str
    name: str
    states: tuple[str, ...]
    chance: float
    below: tuple["Branch", ...] = ()


@dataclass(frozen=True, slots=True)
class CutSet:
    """Causes, each in a way, that bring the top event about together; `chance` multiplies them."""

    causes: tuple[tuple[str, str], ...]
    chance: float


@dataclass(frozen=True, slots=True)
class FaultTree:
    """The top event with all below it, and its minimal cut sets of one and of two causes."""

    top: Branch
    cut_sets: tuple[CutSet, ...]  # smallest first, then likeliest


@dataclass(slots=True)
class _Drawing:
    """A tree that is being drawn: each gate once."""

    library: Library
    family: Family
    net: Network
    known: Calibration
    drawn: set[tuple[str, tuple[str, ...]]] = field(default_factory=set)

    def chance(self, name: str, states: Collection[str]) -> float:
        """Return the chance that a variable is in one of some states."""
        pairs = zip(self.net.nodes[name].states, self.known.posterior(name), strict=True)
        return sum(p for state, p in pairs if state in states)

    def leaf(self, name: str, states: Collection[str]) -> Branch:
        """Return a cause in some of its ways."""
        ways = tuple(state for state in self.net.nodes[name].states if state in states)
        return Branch("cause", name, ways, self.chance(name, ways))


def fault_tree(
    library: Library, model: SetModel, signal: str, states: tuple[str, ...]
) -> FaultTree:
    """Return what puts a signal of a set into one of some states; its chances hold before a check.

    A cause is its own tree.
    """
    family, known = library.families[model.family.id], calibrated(model, ())
    drawing = _Drawing(library, family, build_network(library, family), known)
    if signal in model.causes:
        leaf = drawing.leaf(signal, states)
        return FaultTree(leaf, tuple(_cut_set(drawing, [(signal, way)]) for way in leaf.states))
    found = minimal_cut_sets(drawing.net, signal, states, LARGEST_CUT_SET)
    sets = [_cut_set(drawing, events) for events in found]
    sets.sort(key=lambda c: (len(c.causes), -round(c.chance, 15), c.causes))
    return FaultTree(_signal(drawing, signal, states), tuple(sets))


def _cut_set(drawing: _Drawing, events: Iterable[tuple[str, str]]) -> CutSet:
    causes = tuple(sorted(events))
    return CutSet(causes, prod(drawing.chance(name, (state,)) for name, state in causes))


def _signal(drawing: _Drawing, name: str, states: tuple[str, ...]) -> Branch:
    """Return a gate; what was drawn before is only named."""
    chance = drawing.chance(name, states)
    if (name, states) in drawing.drawn:
        return Branch("above", name, states, chance)
    drawing.drawn.add((name, states))
    block_id, _, signal = name.partition(".")
    block = drawing.library.blocks[block_id]
    below = (
        *_causes(drawing, block_id, block, signal, states),
        *_taken(drawing, block_id, block, signal, states),
        *_rules(drawing, block_id, block, signal, states),
    )
    return Branch("any", name, states, chance, below)


def _causes(
    drawing: _Drawing, block_id: str, block: Block, signal: str, states: tuple[str, ...]
) -> Iterator[Branch]:
    """Yield the block's own causes of these states, likeliest first, and what is not listed."""
    found = []
    for cause_id, cause in block.causes.items():
        ways = [way for way, made in effects(cause).items() if made.get(signal) in states]
        if ways:
            found.append(drawing.leaf(f"{block_id}.{cause_id}", ways))
    yield from sorted(found, key=lambda branch: (-round(branch.chance, 15), branch.name))
    if signal in unlisted_signals(block):
        yield drawing.leaf(unlisted_name(block_id, signal), states)


def _taken(
    drawing: _Drawing, block_id: str, block: Block, signal: str, states: tuple[str, ...]
) -> Iterator[Branch]:
    for taken, passes in block.makes[signal].takes.items():
        name = global_name(drawing.family, block_id, block, taken)
        theirs = drawing.net.nodes[name].states
        made = {each: each for each in theirs} if passes == "same" else passes
        wanted = tuple(each for each in theirs if made.get(each) in states)
        if wanted:
            yield _signal(drawing, name, wanted)


def _rules(
    drawing: _Drawing, block_id: str, block: Block, signal: str, states: tuple[str, ...]
) -> Iterator[Branch]:
    for number, rule in enumerate(block.makes[signal].rules):
        if rule.then in states:
            name = f"{block_id}.{signal}?{number}"
            below = tuple(_conditions(drawing, block_id, block, rule))
            yield Branch("all", name, (rule.then,), drawing.chance(name, ("yes",)), below)


def _conditions(drawing: _Drawing, block_id: str, block: Block, rule: Rule) -> Iterator[Branch]:
    """Yield what a rule asks for; a signal that may well be in order is not drawn further."""
    for word, wanted in rule.when.items():
        states = (wanted,) if isinstance(wanted, str) else wanted
        if word in block.causes:
            yield drawing.leaf(f"{block_id}.{word}", states)
            continue
        name = global_name(drawing.family, block_id, block, word)
        if drawing.net.nodes[name].states[0] in states:
            yield Branch("given", name, states, drawing.chance(name, states))
        else:
            yield _signal(drawing, name, states)
