"""A family with one thing wrong at a time: the state of every signal, exactly, by its gates."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from engine.diagnosis.making.building import build_network
from engine.diagnosis.making.texts import check_texts
from engine.diagnosis.model import CheckText
from engine.inference.cut_sets import evaluate, is_basic
from engine.inference.network import Network
from engine.knowledge.library import Library
from engine.knowledge.schema import Cause, Family
from engine.knowledge.states import PRESENT, states_of_cause

Way = tuple[str, str]  # cause by global name, and one of its ways
Truth = Mapping[str, int]  # the number of the state of every variable


@dataclass(frozen=True, slots=True)
class Audited:
    """A family as its author looks at it; nothing here needs a compiled tree.

    `truths` holds every listed way by itself, `happened` every event by itself. A frequency
    reading counts by the signal it looks at, as its author wrote it.
    """

    library: Library
    family: Family
    net: Network
    checks: Mapping[str, CheckText]
    fine: Truth
    truths: Mapping[Way, Truth]
    happened: Mapping[Way, Truth]

    def cause(self, name: str) -> Cause:
        """Return what the author wrote of a cause."""
        block, _, cause = name.partition(".")
        return self.library.blocks[block].causes[cause]


def audited(library: Library, family_id: str) -> Audited:
    """Return one family of a checked library with every cause there by itself."""
    family, library = library.families[family_id], library.of(family_id)
    blocks = library.blocks
    net = build_network(library, family)
    return Audited(
        library,
        family,
        net,
        check_texts(library, family, blocks, net),
        evaluate(net, {}),
        {way: alone(net, *way) for way in _ways(library, family)},
        {event: alone(net, *event) for event in _events(library, family)},
    )


def alone(net: Network, name: str, way: str) -> dict[str, int]:
    """Return the number of the state of every variable when one thing is wrong, or has happened."""
    node = net.nodes[name]
    if is_basic(node):
        return evaluate(net, {name: way})
    (past,) = node.parents  # an event is read off the root that it is a state of
    return evaluate(net, {past: name.partition(".")[2]})


def _ways(library: Library, family: Family) -> Iterator[Way]:
    """Yield every (cause, way) that can be found at the bench: no events, nothing unlisted."""
    for block in family.blocks:
        for name, cause in library.blocks[block].causes.items():
            if cause.kind != "event":
                yield from ((f"{block}.{name}", way) for way in states_of_cause(cause)[1:])


def _events(library: Library, family: Family) -> Iterator[Way]:
    for block in family.blocks:
        for name, cause in library.blocks[block].causes.items():
            if cause.kind == "event":
                yield f"{block}.{name}", PRESENT
