"""Rules on what shows: every cause can come to light in some check."""

from collections.abc import Iterator

import networkx as nx

from engine.errors import Problem
from engine.knowledge.circles import inputs
from engine.knowledge.draft import Draft, Page
from engine.knowledge.schema import Block, Family
from engine.knowledge.states import effects, shows, signals_of, states_in, states_of_cause

Node = tuple[str, str, str]  # block, signal or cause, state
Step = tuple[Node, Node]
SEEN: Node = ("", "", "seen")


def idle_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield causes that do nothing and that nothing looks at."""
    if len(draft.blocks()) < len(draft.listed("blocks")):
        return  # an event may harm something in a block that could not be read
    for name in page.model.causes:
        if _is_idle(page.model, name, draft):
            found = "a cause that makes nothing, and that no check or rule looks at"
            remedy = "Say what it makes of a signal of this block, or add a check that looks at it."
            yield page.source.problem(("causes", name), found, "an effect, or a check", remedy)


def reach_problems(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield causes of a family whose effects end before any check that would show them."""
    blocks = {n: one.model for n, one in draft.blocks().items() if n in page.model.blocks}
    if len(blocks) < len(page.model.blocks):
        return  # the check may stand in a block that could not be read
    graph = nx.DiGraph([(SEEN, SEEN), *_steps(page.model, blocks)])
    shown: set[Node] = nx.ancestors(graph, SEEN)
    for name, block in blocks.items():
        for cause_name, cause in block.causes.items():
            states = states_of_cause(cause)[1:]
            hidden = not any((name, cause_name, state) in shown for state in states)
            if hidden and not _is_idle(block, cause_name, draft):
                found = "effects that end before any check"
                expected = f"a check of '{page.source.file}' that shows them"
                remedy = _remedy(cause_name, effects(cause))
                path = ("causes", cause_name)
                yield draft.blocks()[name].source.problem(path, found, expected, remedy)


def _is_idle(block: Block, name: str, draft: Draft) -> bool:
    cause = block.causes[name]
    looked_at = any(check.looks_at == name for check in block.checks.values())
    ruled = any(name in inputs(signal) for signal in block.makes.values())
    harms = cause.kind == "event" and any(
        name in other.harmed_by
        for one in draft.blocks().values()
        for other in one.model.causes.values()
    )
    return not (any(effects(cause).values()) or looked_at or ruled or harms)


def _remedy(cause: str, made: dict[str, dict[str, str]]) -> str:
    """Return where a check is missing."""
    ends = sorted({f"{s} {state}" for effect in made.values() for s, state in effect.items()})
    return f"Add a check that looks at '{cause}', or that tells {', '.join(ends) or 'it'} apart."


def _steps(family: Family, blocks: dict[str, Block]) -> Iterator[Step]:
    """Yield every step from one wrong state to the next, and to being seen."""
    events = {event: name for name, block in blocks.items() for event in block.causes}
    for name, block in blocks.items():
        yield from _out_of_causes(name, block, blocks, events)
        yield from _through_gates(name, block)
        yield from _into_checks(name, block)
        for need, maker in family.wiring.get(name, {}).items():
            made_by, _, signal = maker.partition(".")
            for state in block.needs[need].states[1:] if need in block.needs else ():
                yield (made_by, signal, state), (name, need, state)


def _out_of_causes(
    name: str, block: Block, blocks: dict[str, Block], homes: dict[str, str]
) -> Iterator[Step]:
    """Yield from each cause to what it makes, and from each event to what it harms."""
    for cause_name, cause in block.causes.items():
        for state, effect in effects(cause).items():
            for signal, becomes in effect.items():
                yield (name, cause_name, state), (name, signal, becomes)
        for event in cause.harmed_by:
            home = homes.get(event, name)
            event_cause = blocks[home].causes.get(event)
            for before in states_of_cause(event_cause)[1:] if event_cause else ():
                for state in states_of_cause(cause)[1:]:
                    yield (home, event, before), (name, cause_name, state)


def _through_gates(name: str, block: Block) -> Iterator[Step]:
    """Yield from each input of a gate to what it passes on."""
    states = states_in(block)
    for made, signal in block.makes.items():
        for taken, passes in signal.takes.items():
            same = {state: state for state in signals_of(block).get(taken, ())}
            for state, becomes in (same if isinstance(passes, str) else passes).items():
                if becomes != signal.states[0]:
                    yield (name, taken, state), (name, made, becomes)
        for rule in signal.rules:
            for asked, wanted in rule.when.items():
                for state in (wanted,) if isinstance(wanted, str) else wanted:
                    if state in states.get(asked, ())[1:]:
                        yield (name, asked, state), (name, made, rule.then)


def _into_checks(name: str, block: Block) -> Iterator[Step]:
    """Yield from each state that a check tells from the right one."""
    states = states_in(block)
    for check in block.checks.values():
        right, *wrong = states.get(check.looks_at, ("",))
        for state in wrong:
            if shows(check, state) != shows(check, right):
                yield (name, check.looks_at, state), SEEN
