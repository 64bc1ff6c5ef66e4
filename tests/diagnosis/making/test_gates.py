from itertools import product
from random import Random

import pytest

from engine.diagnosis.making.gates import Contribution, all_hold, worst_of
from engine.inference.cut_sets import evaluate
from engine.inference.network import Network, Node, network, root

STATES = ("right", "low", "absent")


def roots(number: int) -> list[Node]:
    """Return variables of three states each."""
    return [root(f"part-{n}", ("fine", "weak", "dead"), [0.8, 0.1, 0.1]) for n in range(number)]


def built(sources: list[Node], gates: list[Node]) -> Network:
    """Return the network of some roots and the gates on them."""
    return network([*sources, *gates])


@pytest.mark.parametrize("number", [1, 2, 3, 5])
def test_a_chain_is_the_worst_of_all_parts(number: int) -> None:
    """However long: for every combination of states, the same as the maximum over all parts."""
    dice = Random(number)
    sources = roots(number)
    parts = [
        Contribution(source, {"weak": dice.choice(STATES), "dead": dice.choice(STATES)})
        for source in sources
    ]
    net = built(sources, list(worst_of("out", STATES, parts)))
    for combination in product(("fine", "weak", "dead"), repeat=number):
        events = dict(zip((source.name for source in sources), combination, strict=True))
        made = [
            part.makes.get(state, "right") for part, state in zip(parts, combination, strict=True)
        ]
        assert evaluate(net, events)["out"] == max(map(STATES.index, made))


def test_each_gate_of_a_chain_has_two_inputs() -> None:
    """That keeps the tables small; the last one has the name asked for."""
    sources = roots(4)
    gates = list(worst_of("out", STATES, [Contribution(s, {"dead": "absent"}) for s in sources]))
    assert [gate.name for gate in gates] == ["out#1", "out#2", "out"]
    assert [len(gate.parents) for gate in gates] == [2, 2, 2]


@pytest.mark.parametrize("number", [1, 2, 3])
def test_all_hold_is_an_and(number: int) -> None:
    """Yes exactly when every variable is in one of its states."""
    sources = roots(number)
    allowed = [frozenset({"weak", "dead"}), frozenset({"dead"}), frozenset({"fine", "dead"})]
    conditions = list(zip(sources, allowed, strict=False))
    gates = list(all_hold("rule", conditions))
    net = built(sources, gates)
    for combination in product(("fine", "weak", "dead"), repeat=number):
        events = dict(zip((source.name for source in sources), combination, strict=True))
        holds = all(state in some for state, (_, some) in zip(combination, conditions, strict=True))
        assert gates[-1].states[evaluate(net, events)["rule"]] == ("yes" if holds else "no")
