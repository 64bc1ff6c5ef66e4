"""Small networks and findings that differ from seed to seed, and for one seed never."""

from collections.abc import Sequence
from itertools import product
from random import Random

from engine.inference.network import Network, Node, chance, gate, network, root

SCALE = ("fine", "weak", "dead")


def random_network(seed: int, size: int, most_parents: int = 3) -> Network:
    """Return a network of roots, gates and chance nodes of two or three states, with some zeros."""
    dice = Random(f"network {seed}")
    nodes: list[Node] = []
    for number in range(size):
        states = SCALE[: dice.randint(2, 3)]
        parents = dice.sample(nodes, min(len(nodes), dice.randint(0, most_parents)))
        nodes.append(_random_node(dice, f"v{number}", states, parents))
    return network(nodes)


def random_likelihoods(net: Network, seed: int, count: int) -> dict[str, list[float]]:
    """Return likelihoods for `count` variables; one entry in six is 0."""
    dice = Random(f"evidence {seed}")
    return {
        name: [dice.random() * (dice.random() > 1 / 6) for _ in net.nodes[name].states]
        for name in dice.sample(list(net.nodes), count)
    }


def random_rows(seed: int, states: int, outcomes: int) -> list[list[float]]:
    """Return P(outcome | state), some entries 0."""
    dice = Random(f"rows {seed}")
    return [_random_row(dice, outcomes) for _ in range(states)]


def random_gates(seed: int, causes: int, gates: int, coherent: bool) -> Network:
    """Return roots and two-input gates; the last gate is `top`.

    When coherent, a worse input never makes a better output. Otherwise a gate lands anywhere, save
    that it is fine when all of its inputs are.
    """
    dice = Random(f"gates {seed}")
    nodes: list[Node] = []
    for number in range(causes):
        states = SCALE[: dice.randint(2, 3)]
        nodes.append(root(f"c{number}", states, _random_row(dice, len(states))))
    for number in range(gates):
        parents = dice.sample(nodes[-causes:], 2)
        lands = _random_rule(dice, parents, coherent)
        name = "top" if number == gates - 1 else f"g{number}"
        nodes.append(gate(name, SCALE, parents, lambda *words, lands=lands: SCALE[lands[words]]))
    return network(nodes)


def _random_node(dice: Random, name: str, states: Sequence[str], parents: list[Node]) -> Node:
    if not parents:
        return root(name, states, _random_row(dice, len(states)))
    inputs = list(product(*(parent.states for parent in parents)))
    if dice.random() < 0.5:
        lands = {words: dice.choice(states) for words in inputs}
        return gate(name, states, parents, lambda *words: lands[words])
    return chance(name, states, parents, [_random_row(dice, len(states)) for _ in inputs])


def _random_row(dice: Random, size: int) -> list[float]:
    """Return a distribution; about one entry in six is 0."""
    weights = [dice.random() * (dice.random() > 0.2) for _ in range(size)]
    weights[dice.randrange(size)] += 0.1
    return [w / sum(weights) for w in weights]


def _random_rule(dice: Random, parents: list[Node], coherent: bool) -> dict[tuple[str, ...], int]:
    """Return the number of the state a gate lands in, for each combination of its inputs."""
    inputs = list(product(*(range(len(parent.states)) for parent in parents)))
    lands = {point: dice.randrange(len(SCALE)) if any(point) else 0 for point in inputs}
    if coherent:
        # Half are made fine first, or the worst below would leave little but `dead`.
        lands = {point: state * dice.randint(0, 1) for point, state in lands.items()}
        lands = {point: max(lands[low] for low in inputs if _below(low, point)) for point in inputs}
    return {tuple(SCALE[s] for s in point): state for point, state in lands.items()}


def _below(low: Sequence[int], high: Sequence[int]) -> bool:
    return all(a <= b for a, b in zip(low, high, strict=True))
