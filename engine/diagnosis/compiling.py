"""From checked knowledge to a set model: once for each family, at build time."""

from dataclasses import replace
from math import prod

from engine.diagnosis import texts
from engine.diagnosis.building import build_network
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.storage import fingerprint
from engine.inference.cut_sets import minimal_cut_sets
from engine.inference.junction import junction_tree
from engine.inference.network import Network
from engine.inference.propagation import calibrate
from engine.knowledge.library import Library

LARGEST_CUT_SET = 2
TRIES = 200  # elimination orders; more hardly help


def compile_family(library: Library, family_id: str) -> SetModel:
    """Return the model of one family of a checked library."""
    family = library.families[family_id]
    blocks = {name: library.blocks[name] for name in family.blocks}
    net = build_network(library, family)
    tree = junction_tree(net, TRIES)
    checks = texts.check_texts(library, family, blocks, net)
    unsigned = SetModel(
        family=texts.family_text(family_id, family),
        version="",
        blocks=texts.block_texts(family, blocks),
        edges=texts.edges(family, blocks),
        signals=texts.signal_texts(blocks),
        causes=texts.cause_texts(blocks, calibrate(tree, {})),
        checks=checks,
        instruments=texts.instrument_texts(library),
        cautions=texts.caution_texts(library),
        cut_sets={name: cut_sets(net, check) for name, check in checks.items() if _is_top(check)},
        p_all_fine=_p_all_fine(net),
        tree=tree,
    )
    return replace(unsigned, version=fingerprint(unsigned))


def cut_sets(net: Network, check: CheckText) -> tuple[tuple[tuple[str, str], ...], ...]:
    """Return the minimal cut sets of a symptom: what makes a yes likelier than not.

    Each set is a tuple of (cause, way), smallest sets first.
    """
    yes = [row[0] for row in check.channel.rows]
    states = net.nodes[check.looks_at].states
    shown = [state for state, p in zip(states, yes, strict=True) if p > 0.5 and p > yes[0]]
    found = minimal_cut_sets(net, check.looks_at, shown, LARGEST_CUT_SET) if shown else ()
    return tuple(tuple(sorted(events)) for events in found)


def _p_all_fine(net: Network) -> float:
    """Return the probability that every variable is in its first state: the product of tables."""
    return prod(node.table[(0,) * (len(node.parents) + 1)] for node in net.nodes.values())


def _is_top(check: CheckText) -> bool:
    return check.kind == "symptom" and "yes" in check.outcomes
