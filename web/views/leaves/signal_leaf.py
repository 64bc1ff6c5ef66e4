"""A signal: its states and how often they are met, who makes and takes it, what looks at it."""

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel, SignalText
from web.views.leaves.pieces import block_link, chance, check_row, checks_of, row, rows, state_words
from web.views.markup import h


def signal_leaf(model: SetModel, signal: SignalText) -> Iterator[Element | None]:
    """Yield what is known of a signal."""
    posterior = calibrated(model, ()).posterior(signal.id)
    states = [
        h("li", None, h("span", None, state_words(state)), h("small", None, chance(p)))
        for state, p in zip(signal.states, posterior, strict=True)
    ]
    yield rows("Its states, from right to worst", states, "In a set nothing is known of.")
    yield rows("Made by", [h("li", None, block_link(model, signal.id.partition(".")[0]))])
    takers = [model.blocks[block] for block, fed in model.takes.items() if signal.id in fed]
    yield rows("Taken by", [row(f"block/{each.id}", each.title) for each in takers])
    looking = [each for each in checks_of(model).values() if each.looks_at == signal.id]
    yield rows("Seen by", [check_row(each) for each in looking])
