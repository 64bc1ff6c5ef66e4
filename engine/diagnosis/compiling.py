"""From checked knowledge to a set model: once for each family, at build time."""

from dataclasses import replace
from math import prod

from engine.diagnosis.building import (
    UNLISTED,
    build_network,
    global_name,
    unlisted_name,
    unlisted_signals,
)
from engine.diagnosis.model import (
    BlockText,
    CauseText,
    CautionText,
    CheckText,
    FamilyText,
    InstrumentText,
    SetModel,
    SignalText,
)
from engine.diagnosis.showing import channel_of, meter_of, outcome_titles
from engine.diagnosis.storage import fingerprint
from engine.inference.cut_sets import minimal_cut_sets
from engine.inference.junction import junction_tree
from engine.inference.network import Network
from engine.inference.propagation import Calibration, calibrate
from engine.knowledge.library import Library
from engine.knowledge.schema import Block, Check, Family
from engine.knowledge.states import PRESENT

LARGEST_CUT_SET = 2
TRIES = 60  # elimination orders; more hardly help


def compile_family(library: Library, family_id: str) -> SetModel:
    """Return the model of one family of a checked library."""
    family = library.families[family_id]
    net = build_network(library, family)
    tree = junction_tree(net, TRIES)
    blocks = {name: library.blocks[name] for name in family.blocks}
    checks = dict(_checks(library, family, blocks, net))
    unsigned = SetModel(
        family=_family_text(family_id, family),
        version="",
        blocks={
            name: BlockText(name, block.title, block.about, family.blocks[name].at)
            for name, block in blocks.items()
        },
        edges=_edges(family, blocks),
        signals={
            f"{name}.{signal_id}": SignalText(
                f"{name}.{signal_id}", signal.title, signal.carries, signal.states
            )
            for name, block in blocks.items()
            for signal_id, signal in block.makes.items()
        },
        causes=_causes(blocks, calibrate(tree, {})),
        checks=checks,
        instruments={
            name: InstrumentText(name, item.title, item.plain)
            for name, item in library.instruments.items()
        },
        cautions={
            name: CautionText(name, item.title, item.text, item.source)
            for name, item in library.cautions.items()
        },
        p_all_fine=_p_all_fine(net),
        cut_sets={name: cut_sets(net, check) for name, check in checks.items() if _is_top(check)},
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


def _family_text(family_id: str, family: Family) -> FamilyText:
    return FamilyText(
        family_id,
        family.title,
        family.about,
        family.recognise,
        family.channels,
        family.rules,
        family.source,
    )


def _edges(family: Family, blocks: dict[str, Block]) -> tuple[tuple[str, str, str], ...]:
    """Return who feeds whom and with what, each pair and kind once."""
    edges: dict[tuple[str, str, str], None] = {}
    for needing, needs in family.wiring.items():
        for source in needs.values():
            maker, _, signal = source.partition(".")
            edges[maker, needing, blocks[maker].makes[signal].carries] = None
    return tuple(edges)


def _causes(blocks: dict[str, Block], nothing_known: Calibration) -> dict[str, CauseText]:
    """Return all causes in words, each block's unlisted one last."""
    causes = {}
    for block_id, block in blocks.items():
        for cause_id, cause in block.causes.items():
            name = f"{block_id}.{cause_id}"
            causes[name] = CauseText(
                id=name,
                block=block_id,
                title=cause.title,
                kind=cause.kind,
                about=cause.about,
                act=cause.act,
                cautions=cause.cautions,
                source=cause.source,
                prior=1.0 - nothing_known.posterior(name)[0],
                ways={way: item.title for way, item in cause.ways.items()}
                or {PRESENT: cause.title},
            )
        for signal in unlisted_signals(block):
            unlisted = _unlisted(block_id, block, signal, nothing_known)
            causes[unlisted.id] = unlisted
    return causes


def _unlisted(block_id: str, block: Block, signal: str, nothing_known: Calibration) -> CauseText:
    name, made = unlisted_name(block_id, signal), block.makes[signal]
    return CauseText(
        id=name,
        block=block_id,
        title=f"{block.title}: something not listed here that harms: {made.title}",
        kind=UNLISTED,
        about="The knowledge does not hold every way a stage can fail. This stands for the rest.",
        act=(
            "Look the stage over part by part: voltages against the circuit diagram, joints, "
            "tracks, earlier work. Note what it was, so that it can be added."
        ),
        cautions=("discharge",),
        source="estimate",
        prior=1.0 - nothing_known.posterior(name)[0],
        ways={state: f"{made.title}: {state.replace('-', ' ')}" for state in made.states[1:]},
    )


def _checks(
    library: Library, family: Family, blocks: dict[str, Block], net: Network
) -> list[tuple[str, CheckText]]:
    return [
        (f"{block_id}.{name}", _check_text(library, family, block_id, name, check, net))
        for block_id, block in blocks.items()
        for name, check in block.checks.items()
    ]


def _check_text(
    library: Library, family: Family, block_id: str, name: str, check: Check, net: Network
) -> CheckText:
    looks_at = global_name(family, block_id, library.blocks[block_id], check.looks_at)
    states = net.nodes[looks_at].states
    meter = meter_of(check, states, library.instruments)
    return CheckText(
        id=f"{block_id}.{name}",
        block=block_id,
        kind=check.kind,
        title=check.title,
        asks=check.asks,
        where=check.where,
        how=check.how,
        mode=check.mode,
        load=check.load,
        lid=check.lid,
        needs=check.needs,
        right=check.right,
        may_see=check.may_see,
        plain=check.plain,
        minutes=check.minutes,
        cautions=check.cautions,
        source=check.source,
        looks_at=looks_at,
        outcomes=outcome_titles(check),
        unit=check.unit,
        span=check.span,
        channel=channel_of(check, states, meter),
        meter=meter,
    )
