"""From a family to its gate network: causes as roots, signals as gates."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import partial
from itertools import product
from math import prod

from engine.diagnosis.frequencies.model import FREQUENCIES
from engine.diagnosis.making.gates import Contribution, all_hold, worst_of
from engine.diagnosis.making.priors import priors_of_ways, row_after
from engine.inference.network import Network, Node, chance, gate, network, root
from engine.knowledge.library import Library
from engine.knowledge.schema import Block, Cause, Family
from engine.knowledge.states import FINE, PRESENT, UNLISTED, effects, states_of_cause
from engine.knowledge.tuning import has_frequency_evidence


@dataclass(slots=True)
class _Builder:
    """What has been built so far, by global name `block.name`."""

    library: Library
    family: Family
    nodes: dict[str, Node] = field(default_factory=dict)
    events: dict[str, str] = field(default_factory=dict)  # event -> the root it is a state of

    def add(self, node: Node) -> Node:
        """Keep a node and return it."""
        self.nodes[node.name] = node
        return node

    def blocks(self) -> Iterator[tuple[str, Block]]:
        """Yield the blocks of the family with their ids."""
        for name in self.family.blocks:
            yield name, self.library.blocks[name]


def build_network(library: Library, family: Family) -> Network:
    """Return the network of a family; every cause and every made signal has its global name."""
    builder = _Builder(library, family)
    _add_events(builder)
    for block_id, block in builder.blocks():
        for cause_id, cause in block.causes.items():
            if cause.kind != "event":
                builder.add(_cause_node(builder, f"{block_id}.{cause_id}", cause))
        for name in unlisted_signals(block):
            builder.add(_unlisted_node(library, block_id, block, name))
    for block_id, name in _signals_in_order(family, dict(builder.blocks())):
        if f"{block_id}.{name}" not in builder.nodes:
            for node in _signal_nodes(builder, block_id, name):
                builder.add(node)
    _add_frequencies(builder)
    return network(builder.nodes.values())


def frequency_signals(family: Family) -> tuple[str, ...]:
    """Return the signals a frequency reading looks at: oscillators, division number, lock."""
    if not has_frequency_evidence(family):
        return ()
    return (*family.oscillators.values(), str(family.division), str(family.lock))


def _add_frequencies(builder: _Builder) -> None:
    """Join the signals that a frequency reading looks at into one, which determines nothing."""
    signals = frequency_signals(builder.family)
    if not signals:
        return
    parents = [builder.nodes[name] for name in signals]
    states = ["/".join(each) for each in product(*(node.states for node in parents))]
    builder.add(gate(FREQUENCIES, states, parents, lambda *each: "/".join(each)))


def global_name(family: Family, block_id: str, block: Block, name: str) -> str:
    """Return the network's name for what a block calls `name`."""
    return family.wiring[block_id][name] if name in block.needs else f"{block_id}.{name}"


def unlisted_signals(block: Block) -> tuple[str, ...]:
    """Return the signals something not listed can harm: none where the block holds events only.

    A signal that only gathers others of its block is not harmed apart from them.
    """
    if all(cause.kind == "event" for cause in block.causes.values()):
        return ()
    harmed = {
        signal
        for cause in block.causes.values()
        for made in effects(cause).values()
        for signal in made
    }
    return tuple(name for name in block.makes if name in harmed or not _gathers(block, name))


def _gathers(block: Block, name: str) -> bool:
    """Whether a signal takes from its own block alone, and gets each of its bad states there."""
    signal = block.makes[name]
    if signal.rules or not signal.takes.keys() <= block.makes.keys():
        return False
    passed = {
        state
        for taken, passes in signal.takes.items()
        for state in (block.makes[taken].states if passes == "same" else passes.values())
    }
    return passed.issuperset(signal.states[1:])


def unlisted_name(block_id: str, signal: str) -> str:
    """Return the name of the cause that stands for what the knowledge does not hold."""
    return f"{block_id}.{UNLISTED}-{signal}"


def _add_events(builder: _Builder) -> None:
    """Add a root for each signal that events make, and a gate that reads each event off it.

    Events that make the same signal exclude each other: at most one of them counts. A root for
    each event would have to be carried by every clique between any two parts it can harm.
    """
    for block_id, block in builder.blocks():
        for name in block.makes:
            priors = {
                cause_id: sum(priors_of_ways(cause, builder.library.parts).values())
                for cause_id, cause in block.causes.items()
                if cause.kind == "event" and name in cause.makes
            }
            if not priors:
                continue
            states = (block.makes[name].states[0], *priors)
            past = root(
                f"{block_id}.{name}", states, [1.0 - sum(priors.values()), *priors.values()]
            )
            builder.add(past)
            for event in priors:
                read = partial(_is_event, event)
                builder.events[event] = past.name
                builder.add(gate(f"{block_id}.{event}", (FINE, PRESENT), [past], read))


def _is_event(event: str, state: str) -> str:
    return PRESENT if state == event else FINE


def _cause_node(builder: _Builder, name: str, cause: Cause) -> Node:
    """Return a root, or a node under the past when an event can bring the cause about."""
    ways = priors_of_ways(cause, builder.library.parts)
    states = states_of_cause(cause)
    names = dict.fromkeys(builder.events[event] for event in cause.harmed_by)
    pasts = [builder.nodes[past] for past in names]
    if not pasts:
        return root(name, states, row_after(ways, 0.0))
    rows = [
        row_after(ways, 1.0 - prod(1.0 - cause.harmed_by.get(state, 0.0) for state in happened))
        for happened in product(*(past.states for past in pasts))
    ]
    return chance(name, states, pasts, rows)


def _unlisted_node(library: Library, block_id: str, block: Block, name: str) -> Node:
    """Share a part of the block's own prior evenly among all bad states of its signals."""
    own = sum(sum(priors_of_ways(cause, library.parts).values()) for cause in block.causes.values())
    bad = {signal: block.makes[signal].states[1:] for signal in unlisted_signals(block)}
    each = block.unlisted * own / sum(map(len, bad.values()))
    rest = 1.0 - each * len(bad[name])
    return root(unlisted_name(block_id, name), (FINE, *bad[name]), [rest, *[each] * len(bad[name])])


def _signals_in_order(family: Family, blocks: dict[str, Block]) -> list[tuple[str, str]]:
    """Return (block, signal) with everything a signal takes or tests before it."""
    order: dict[tuple[str, str], None] = {}

    def visit(block_id: str, name: str) -> None:
        if (block_id, name) in order:
            return
        block = blocks[block_id]
        signal = block.makes[name]
        used = [*signal.takes, *(word for rule in signal.rules for word in rule.when)]
        for word in used:
            if word not in block.causes:
                maker, _, made = global_name(family, block_id, block, word).partition(".")
                visit(maker, made)
        order[block_id, name] = None

    for block_id, block in blocks.items():
        for name in block.makes:
            visit(block_id, name)
    return list(order)


def _signal_nodes(builder: _Builder, block_id: str, name: str) -> Iterator[Node]:
    block = builder.library.blocks[block_id]
    signal = block.makes[name]
    parts = list(_from_causes(builder, block_id, block, name))
    for taken, passes in signal.takes.items():
        node = builder.nodes[global_name(builder.family, block_id, block, taken)]
        same = {state: state for state in node.states}
        parts.append(Contribution(node, same if passes == "same" else passes))
    for number, rule in enumerate(signal.rules):
        conditions = [
            (builder.nodes[global_name(builder.family, block_id, block, word)], _states(wanted))
            for word, wanted in rule.when.items()
        ]
        gates = list(all_hold(f"{block_id}.{name}?{number}", conditions))
        yield from gates
        parts.append(Contribution(gates[-1], {"yes": rule.then}))
    yield from worst_of(f"{block_id}.{name}", signal.states, parts)


def _from_causes(
    builder: _Builder, block_id: str, block: Block, name: str
) -> Iterator[Contribution]:
    """Yield what the block's own causes, and something unlisted, make of one signal."""
    if name in unlisted_signals(block):
        node = builder.nodes[unlisted_name(block_id, name)]
        yield Contribution(node, {state: state for state in node.states[1:]})
    touching = [
        (len({signal for made in effects(cause).values() for signal in made}), cause_id, cause)
        for cause_id, cause in block.causes.items()
    ]
    # Causes that harm this signal alone come first: their part of the chain is a branch of its own.
    for _, cause_id, cause in sorted(touching, key=lambda item: item[0]):
        makes = {way: made[name] for way, made in effects(cause).items() if name in made}
        if makes:
            yield Contribution(builder.nodes[f"{block_id}.{cause_id}"], makes)


def _states(wanted: str | tuple[str, ...]) -> frozenset[str]:
    return frozenset([wanted] if isinstance(wanted, str) else wanted)
