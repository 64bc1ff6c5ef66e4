"""What comes and goes: every cause that may, as one noisy-or node for each occasion."""

from engine.diagnosis.making.texts import check_texts, signal_texts
from engine.diagnosis.model import CheckText, SignalText
from engine.inference.network import Network, Node, network, root
from engine.inference.noisy_or import NoisyOr, NoisyTree
from engine.inference.tree import JunctionTree
from engine.knowledge.library import Library
from engine.knowledge.schema import Family
from engine.knowledge.wavering import CHANGES, STEADY, WHOLE_SET, chances, wavering_block


def with_nodes(library: Library, tree: JunctionTree) -> JunctionTree | NoisyTree:
    """Return the tree with a node for each occasion; `library` is that of one family."""
    if library.wavering is None:
        return tree
    nodes = {}
    for occasion, facts in library.wavering.occasions.items():
        told = {
            f"{block_id}.{name}": chances(cause, library.parts, occasion)
            for block_id, block in library.blocks.items()
            for name, cause in block.causes.items()
            if cause.kind != "event"
        }
        shown = {cause: row for cause, row in told.items() if any(row)}
        nodes[f"{WHOLE_SET}.{occasion}"] = NoisyOr(facts.otherwise, shown)
    return NoisyTree(tree, nodes)


def wavering_texts(
    library: Library, family: Family
) -> tuple[dict[str, SignalText], dict[str, CheckText]]:
    """Return the occasions and the checks that look at them, in words."""
    if library.wavering is None:
        return {}, {}
    block = wavering_block(library.wavering)
    nodes: list[Node] = [
        root(f"{WHOLE_SET}.{name}", (STEADY, CHANGES), (0.5, 0.5)) for name in block.makes
    ]
    net: Network = network(nodes)  # states only: what looks at a node never asks for its prior
    alone = library.with_blocks({WHOLE_SET: block})
    texts = check_texts(alone, family, {WHOLE_SET: block}, net)
    return signal_texts({WHOLE_SET: block}), texts
