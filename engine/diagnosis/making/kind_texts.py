"""From the table of kinds to what a browser loads."""

from engine.diagnosis.kinds import KIND, KindTexts
from engine.diagnosis.making.texts import check_texts, signal_texts
from engine.diagnosis.model import BlockText
from engine.inference.network import network, root
from engine.knowledge.kinds import SET, kind_block
from engine.knowledge.library import Library


def kind_texts(library: Library) -> KindTexts | None:
    """Return what tells the families of a library apart, None where nothing does."""
    if library.kinds is None:
        return None
    total = sum(library.kinds.shares.values())
    shares = {name: share / total for name, share in library.kinds.shares.items()}
    block = kind_block(library.kinds)
    anyone = next(iter(library.families.values()))  # the block needs no wire of it
    alone = library.with_blocks({SET: block})
    net = network([root(KIND, tuple(shares), [*shares.values()])])
    return KindTexts(
        shares,
        BlockText(SET, block.title, block.about, (0, 0)),
        signal_texts({SET: block})[KIND],
        check_texts(alone, anyone, {SET: block}, net),
    )
