"""The words of a set model: what authors wrote, by global name."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from engine.diagnosis.frequencies.model import AtPoint
from engine.diagnosis.frequencies.points import OSCILLATOR
from engine.diagnosis.making.building import global_name
from engine.diagnosis.making.showing import accuracy_of, channel_of, meter_of, outcome_titles
from engine.diagnosis.model import (
    BlockText,
    CautionText,
    CheckText,
    FamilyText,
    Handling,
    InstrumentText,
    Mending,
    Presumed,
    SignalText,
)
from engine.inference.network import Network
from engine.knowledge.library import Library
from engine.knowledge.schema import Block, Check, Family
from engine.radio.plans.plan import Plan

Blocks = Mapping[str, Block]
QUANTITIES = {"SWR": "swr", "W": "power", "mW": "power"}  # which the unit tells by itself


def family_text(family_id: str, family: Family, library: Library) -> FamilyText:
    """Return a kind of set in words, its rules as the table of limits calls them."""
    rules = library.rule_sets.get(family.rules)
    return FamilyText(
        family_id,
        family.title,
        family.about,
        family.recognise,
        family.channels,
        family.rules,
        family.source,
        family.plan or "",
        rules.title if rules else family.rules,
    )


def block_texts(family: Family, blocks: Blocks) -> dict[str, BlockText]:
    """Return the stages in words, with their places in the drawing."""
    return {
        name: BlockText(name, block.title, block.about, family.blocks[name].at)
        for name, block in blocks.items()
    }


def signal_texts(blocks: Blocks) -> dict[str, SignalText]:
    """Return all signals in words."""
    return {
        f"{name}.{signal_id}": SignalText(
            f"{name}.{signal_id}", signal.title, signal.carries, signal.states
        )
        for name, block in blocks.items()
        for signal_id, signal in block.makes.items()
    }


def instrument_texts(library: Library) -> dict[str, InstrumentText]:
    """Return all instruments in words."""
    return {
        name: InstrumentText(name, item.title, item.plain, item.said, item.ready_min)
        for name, item in library.instruments.items()
    }


def handling(library: Library) -> Handling:
    """Return the minutes every check takes beside its own."""
    return Handling(library.bench.each_check_min, library.bench.lid_off_min)


def mending(library: Library) -> Mending | None:
    """Return what goes with every repair, None where the knowledge has no table of repairs."""
    table = library.repairs
    return Mending(table.prove.minutes, table.hand_over.minutes) if table else None


def caution_texts(library: Library) -> dict[str, CautionText]:
    """Return all cautions in words."""
    return {
        name: CautionText(name, item.title, item.text, item.source)
        for name, item in library.cautions.items()
    }


def check_texts(
    library: Library, family: Family, blocks: Blocks, net: Network, plan: Plan | None = None
) -> dict[str, CheckText]:
    """Return all checks in words, with how they show the states of what they look at.

    Those that read a frequency say at which point of the `plan`.
    """
    checks = {
        f"{block_id}.{name}": _check_text(library, family, block_id, name, check, net)
        for block_id, block in blocks.items()
        for name, check in block.checks.items()
    }
    points = {
        f"{block_id}.{name}": _at(family, plan, check, checks[f"{block_id}.{name}"])
        for block_id, block in blocks.items()
        for name, check in block.checks.items()
        if plan is not None and check.frequency is not None
    }
    return {name: replace(check, at=points.get(name)) for name, check in checks.items()}


def _at(family: Family, plan: Plan, check: Check, text: CheckText) -> AtPoint | None:
    """Return which frequency a check reads, in the first mode of the plan."""
    mode, point = next(iter(plan.modes)), str(check.frequency)
    if point != "own":
        return AtPoint(text.id, point, mode, 0)
    owners = [name for name, signal in family.oscillators.items() if signal == text.looks_at]
    return AtPoint(text.id, f"{OSCILLATOR}{owners[0]}", mode, 0) if owners else None


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
        channel=channel_of(check, states, meter),
        meter=meter,
        presumes=_presumed(library, family, block_id, check.presumes),
        safe_while=_presumed(library, family, block_id, check.safe_while),
        said=check.said,
        **_measured(library, check),
    )


def _presumed(
    library: Library, family: Family, block_id: str, presumed: Mapping[str, tuple[str, ...]]
) -> Presumed:
    block = library.blocks[block_id]
    named = {global_name(family, block_id, block, name): each for name, each in presumed.items()}
    return tuple(named.items())


def _measured(library: Library, check: Check) -> dict[str, Any]:
    """Return what a reading is a reading of, and how well; nothing much for other checks."""
    return {
        "unit": check.unit,
        "span": check.span,
        "quantity": check.quantity or QUANTITIES.get(check.unit or ""),
        "nominal_mhz": check.nominal_mhz,
        "limit": check.limit,
        "accuracy": accuracy_of(check, library.instruments) if check.reads else None,
    }
