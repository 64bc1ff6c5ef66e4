"""A signal as a chain of two-input gates.

The worst-of over many inputs, split into a running worst-of two at a time, keeps every table
small; a rule with several conditions becomes a chain of and-gates first.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from engine.inference.network import Node, gate

HOLDS = ("no", "yes")


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one variable makes of a signal, by its state; states not named make it right."""

    source: Node
    makes: Mapping[str, str]


def worst_of(name: str, states: Sequence[str], parts: Sequence[Contribution]) -> Iterator[Node]:
    """Yield the gates that end in a node `name`: the worst of what `parts` make it.

    `states` run from best to worst. At least one part is needed.
    """
    rank = {state: number for number, state in enumerate(states)}

    def made(part: Contribution, state: str) -> str:
        return part.makes.get(state, states[0])

    if len(parts) == 1:
        yield gate(name, states, [parts[0].source], lambda a: made(parts[0], a))
        return
    running = parts[0]
    for number, part in enumerate(parts[1:], start=1):
        inner = name if number == len(parts) - 1 else f"{name}#{number}"
        left = running

        def rule(a: str, b: str, left: Contribution = left, right: Contribution = part) -> str:
            return max(made(left, a), made(right, b), key=rank.__getitem__)

        node = gate(inner, states, [left.source, part.source], rule)
        yield node
        running = Contribution(node, {state: state for state in states})


def all_hold(name: str, conditions: Sequence[tuple[Node, frozenset[str]]]) -> Iterator[Node]:
    """Yield the gates that end in a node `name` (no, yes): every variable is in its states."""
    (first, allowed), *rest = conditions
    running = gate(name if not rest else f"{name}#0", HOLDS, [first], lambda a: HOLDS[a in allowed])
    yield running
    for number, (node, states) in enumerate(rest, start=1):
        inner = name if number == len(rest) else f"{name}#{number}"

        def rule(a: str, b: str, states: frozenset[str] = states) -> str:
            return HOLDS[a == "yes" and b in states]

        running = gate(inner, HOLDS, [running, node], rule)
        yield running
