"""Minimal cut sets: the smallest sets of basic events that bring about a top event.

Top-down expansion with absorption, memoised for each (variable, set of states). A gate puts its
variable into `states` exactly on some boxes of parent states; the maximal boxes are the products
of its expansion. A parent that may stay in its normal state contributes nothing. Every candidate
is then checked by evaluating the gates forward, so a cut set named here really is one, also where
a rule makes the tree non-coherent.

References:
    Vesely et al., Fault Tree Handbook, NUREG-0492 (1981), chapter VII.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import groupby, product

from engine.inference.network import Network, Node

Event = tuple[str, str]  # basic variable, state
CutSet = frozenset[Event]
Family = frozenset[CutSet]


@dataclass(frozen=True, slots=True)
class Question:
    """Variable `name` in one of `states`, given by number."""

    name: str
    states: frozenset[int]


def minimal_cut_sets(
    network: Network, top: str, states: Iterable[str], largest: int
) -> tuple[CutSet, ...]:
    """Return the minimal sets of basic events that put `top` into one of `states`.

    Args:
        network: every inner node a gate (tables of ones); the first state of a basic variable is
            normal. A basic variable with parents (one that an event can harm) counts as basic.
        top: the variable of the top event.
        states: its states that count as the event.
        largest: cut sets with more events than this are left out.

    Returns:
        Smallest first, then by name.
    """
    node = network.nodes[top]
    wanted = frozenset(node.states.index(state) for state in states)
    above = _above(network, top)
    candidates = _expand(above, evaluate(above, {}), Question(top, wanted), largest)
    true = [c for c in candidates if evaluate(above, dict(c))[top] in wanted]
    ordered = sorted(_absorb(true), key=lambda c: (len(c), sorted(c)))
    return tuple(ordered)


def evaluate(network: Network, events: Mapping[str, str]) -> dict[str, int]:
    """Return the state number of every variable when `events` happen and all else is normal."""
    state: dict[str, int] = {}
    for name, node in network.nodes.items():
        if is_basic(node):
            state[name] = node.states.index(events[name]) if name in events else 0
        else:
            inputs = tuple(state[parent] for parent in node.parents)
            state[name] = next(s for s in range(len(node.states)) if (*inputs, s) in node.table)
    return state


def is_basic(node: Node) -> bool:
    """Whether a node is a basic event: a root, or a chance node rather than a gate."""
    return not node.parents or any(p != 1.0 for p in node.table.values())


def _above(network: Network, top: str) -> Network:
    """Return `top` and what it depends on, down to the basic events; those stand alone here."""
    found, stack = {top}, [top]
    while stack:
        node = network.nodes[stack.pop()]
        fresh = [] if is_basic(node) else [p for p in node.parents if p not in found]
        found.update(fresh)
        stack.extend(fresh)
    return Network({name: node for name, node in network.nodes.items() if name in found})


def _expand(network: Network, normal: Mapping[str, int], top: Question, largest: int) -> Family:
    """Return candidate cut sets for `top`: every question below it is answered before it."""
    answers: dict[Question, Family] = {}
    products: dict[Question, list[tuple[Question, ...]]] = {}
    waiting = [top]
    while waiting:
        question = waiting[-1]
        if question in products:  # met again: what it asked for has been answered since
            answers[question] = _union(products.pop(question), answers, largest)
        elif question not in answers:
            answer = _at_once(network, normal, question)
            if answer is None:
                products[question] = _products(network, question)
                parts = {part for some in products[question] for part in some}
                waiting += [part for part in parts if part not in answers]
                continue
            answers[question] = answer
        waiting.pop()
    return answers[top]


def _at_once(network: Network, normal: Mapping[str, int], question: Question) -> Family | None:
    """Return the answer to a question that needs no other: it is normal, or an event itself."""
    node = network.nodes[question.name]
    if normal[question.name] in question.states:
        return frozenset({frozenset()})
    if is_basic(node):
        return frozenset(frozenset({(node.name, node.states[s])}) for s in question.states)
    return None


def _products(network: Network, question: Question) -> list[tuple[Question, ...]]:
    """Return what all parents must be together, in each of several ways."""
    node = network.nodes[question.name]
    boxes = _boxes(network, node, question.states)
    return [tuple(map(Question, node.parents, box)) for box in boxes]


def _union(
    products: Iterable[tuple[Question, ...]], answers: Mapping[Question, Family], largest: int
) -> Family:
    found: set[CutSet] = set()
    for questions in products:
        for parts in product(*(answers[question] for question in questions)):
            union = frozenset().union(*parts)
            if len(union) <= largest and len({name for name, _ in union}) == len(union):
                found.add(union)
    return _absorb(found)


def _boxes(
    network: Network, node: Node, states: frozenset[int]
) -> list[tuple[frozenset[int], ...]]:
    """Return maximal boxes of parent states on which the gate lands in `states`."""
    inside = {entry[:-1] for entry in node.table if entry[-1] in states}
    sizes = [range(len(network.nodes[parent].states)) for parent in node.parents]
    boxes = set()
    for point in sorted(inside):
        box = [frozenset({s}) for s in point]
        for axis, size in enumerate(sizes):
            for extra in size:
                wider = [*box]
                wider[axis] = box[axis] | {extra}
                if all(corner in inside for corner in product(*wider)):
                    box = wider
        boxes.add(tuple(box))
    return sorted(boxes, key=lambda b: [sorted(side) for side in b])


def _absorb(sets: Iterable[CutSet]) -> Family:
    """Drop every set that contains another one."""
    kept: list[CutSet] = []
    for _, alike in groupby(sorted(set(sets), key=len), key=len):
        # Of one size none contains another: only smaller ones need be looked at.
        kept += [one for one in alike if not any(smaller <= one for smaller in kept)]
    return frozenset(kept)
