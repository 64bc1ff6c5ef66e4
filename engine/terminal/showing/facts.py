"""All that is known of one thing, as plain records: what `dryjoint show` prints."""

from dataclasses import asdict
from typing import Any

from engine.diagnosis.auditing.explained import top_states
from engine.diagnosis.auditing.fault_tree import fault_tree
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.making.building import global_name
from engine.diagnosis.making.showing import outcome_titles
from engine.knowledge.schema import Check
from engine.knowledge.states import FINE, states_in
from engine.terminal.showing.cause_facts import cause_in_short
from engine.terminal.showing.opened import Facts, OpenedSet


def family_facts(opened: OpenedSet, name: str) -> Facts:
    """Return a kind of set: its blocks, wiring, plan and limits."""
    family, library = opened.family, opened.library
    return {
        "kind": "family",
        "id": name,
        **family.model_dump(include={"title", "about", "source", "channels", "rules", "plan"}),
        "recognise": list(family.recognise),
        "blocks": [
            {
                "id": block,
                "title": library.blocks[block].title,
                "causes": len(library.blocks[block].causes),
                "checks": len(library.blocks[block].checks),
            }
            for block in family.blocks
        ],
        "wiring": [
            {"block": block, "need": need, "from": maker}
            for block, wires in family.wiring.items()
            for need, maker in wires.items()
        ],
        "limits": {
            limit: one.model_dump(exclude={"read"})
            for limit, one in library.limits[family.rules].items()
        },
    }


def block_facts(opened: OpenedSet, name: str) -> Facts:
    """Return a stage: signals with where they come from and go, causes, checks."""
    block, wires = opened.library.blocks[name], opened.family.wiring.get(name, {})
    return {
        "kind": "block",
        "id": name,
        "family": opened.id,
        "title": block.title,
        "about": block.about,
        "needs": [
            {"id": need, "title": one.title, "states": list(one.states), "from": wires[need]}
            for need, one in block.needs.items()
        ],
        "makes": [
            {
                "id": f"{name}.{signal}",
                "title": one.title,
                "states": list(one.states),
                "to": _goes_to(opened, f"{name}.{signal}"),
            }
            for signal, one in block.makes.items()
        ],
        "causes": [cause_in_short(opened, name, cause) for cause in block.causes],
        "checks": [check_facts(opened, f"{name}.{check}") for check in block.checks],
    }


def check_facts(opened: OpenedSet, name: str) -> Facts:
    """Return a check: where, how, what is right, and how each state shows."""
    block_id, _, own = name.partition(".")
    block = opened.library.blocks[block_id]
    check = block.checks[own]
    states = states_in(block)[check.looks_at]
    fields = {"title", "asks", "minutes", "lid", "mode", "load", "where", "how", "right"}
    return {
        "kind": "check",
        "id": name,
        "family": opened.id,
        "is": check.kind,
        **check.model_dump(include=fields | {"may_see", "plain", "source", "unit"}),
        "looks_at": global_name(opened.family, block_id, block, check.looks_at),
        "needs": {one: opened.library.instruments[one].title for one in check.needs},
        "cautions": {one: opened.library.cautions[one].title for one in check.cautions},
        "outcomes": outcome_titles(check),
        "shows": {state: _shows(check, state) for state in states},
    }


def symptom_facts(opened: OpenedSet, name: str) -> Facts:
    """Return a symptom with the fault tree of what makes it likely."""
    check = opened.model.checks[name]
    model, looks_at = opened.model, check.looks_at
    signal = model.signals.get(looks_at)
    states = signal.states if signal else (FINE, *model.causes[looks_at].ways)
    tree = tree_facts(opened, looks_at, tuple(states[number] for number in top_states(check)))
    return {**check_facts(opened, name), **tree}


def signal_facts(opened: OpenedSet, name: str) -> Facts:
    """Return a signal: its states, where it goes, and the fault tree of its not being right."""
    signal, known = opened.model.signals[name], calibrated(opened.model, ())
    return {
        "kind": "signal",
        "id": name,
        "family": opened.id,
        "title": signal.title,
        "carries": signal.carries,
        "states": dict(zip(signal.states, known.posterior(name), strict=True)),
        "to": _goes_to(opened, name),
        **tree_facts(opened, name, signal.states[1:]),
    }


def tree_facts(opened: OpenedSet, name: str, states: tuple[str, ...]) -> Facts:
    """Return the fault tree of a signal in some states, with its smallest cut sets."""
    if not states:
        return {"tree": None, "cut_sets": []}
    tree = fault_tree(opened.library, opened.model, name, states)
    return {"tree": asdict(tree.top), "cut_sets": [asdict(one) for one in tree.cut_sets]}


def _goes_to(opened: OpenedSet, name: str) -> list[str]:
    wiring = opened.family.wiring.items()
    return [block for block, wires in wiring if name in wires.values()]


def _shows(check: Check, state: str) -> Any:
    """Return how a state shows: the chance of a yes, the outcomes it means, or the readings."""
    if check.yes:
        return check.yes[state]
    if check.reads:
        return check.reads[state].model_dump(by_alias=True)
    return [name for name, outcome in check.outcomes.items() if state in outcome.means]
