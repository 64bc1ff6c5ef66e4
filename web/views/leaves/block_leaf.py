"""A block: what feeds it, what it makes, what may be wrong in it, what can be checked at it."""

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from engine.diagnosis.model import BlockText, CheckText, SetModel
from web.views.leaves.pieces import (
    CARRIES,
    cause_row,
    check_row,
    checks_of,
    rows,
    signal_row,
    state_words,
)
from web.views.markup import h

GROUPS = {
    "symptom": "Symptoms told of it",
    "question": "To ask",
    "look": "To look at",
    "reading": "To measure",
}


def block_leaf(model: SetModel, block: BlockText) -> Iterator[Element | None]:
    """Yield what is known of a block."""
    yield h("p", {"class": "lead"}, block.about)
    fed = model.takes.get(block.id, ())
    yield rows("What feeds it", [signal_row(model, each) for each in fed])
    made = [name for name, signal in model.signals.items() if _is_of(name, block.id)]
    yield rows("What it makes", [signal_row(model, name, _made(model, name)) for name in made])
    causes = [each for each in model.causes.values() if each.block == block.id]
    causes.sort(key=lambda each: (each.kind == "unlisted", -round(each.prior, 12), each.id))
    yield rows("What may be wrong in it", [cause_row(each) for each in causes], CHANCES)
    inside = [each for each in checks_of(model).values() if each.block == block.id]
    for kind, heading in GROUPS.items():
        yield _checks(heading, [each for each in inside if each.kind == kind])


CHANCES = "How often each is met in a set nothing is known of, likeliest first."


def _checks(heading: str, checks: list[CheckText]) -> Element | None:
    return rows(heading, [check_row(each) for each in checks])


def _is_of(name: str, block: str) -> bool:
    return name.partition(".")[0] == block


def _made(model: SetModel, name: str) -> str:
    """Return what a signal carries, its states and who takes it."""
    signal = model.signals[name]
    takers = [block for block, fed in model.takes.items() if name in fed]
    goes = ", ".join(model.blocks[each].title for each in takers) or "no other block"
    states = ", ".join(map(state_words, signal.states))
    return f"{CARRIES.get(signal.carries, signal.carries)}: {states} · to: {goes}"
