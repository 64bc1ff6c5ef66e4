"""Who feeds whom in a family, for the drawing and for whoever reads up on a block."""

from collections.abc import Mapping

from engine.knowledge.schema import Block, Family


def edges(family: Family, blocks: Mapping[str, Block]) -> tuple[tuple[str, str, str], ...]:
    """Return who feeds whom and with what, each pair and kind once."""
    found: dict[tuple[str, str, str], None] = {}
    for needing, needs in family.wiring.items():
        for source in needs.values():
            maker, _, signal = source.partition(".")
            found[maker, needing, blocks[maker].makes[signal].carries] = None
    return tuple(found)


def takes(family: Family) -> dict[str, tuple[str, ...]]:
    """Return the signals each block is fed, as its family wires it."""
    return {block: tuple(wires.values()) for block, wires in family.wiring.items()}
