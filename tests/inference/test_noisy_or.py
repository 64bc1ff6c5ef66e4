"""Noisy-or nodes outside of the tables, against the same network with them inside."""

from itertools import product
from math import inf, prod

import pytest

from engine.errors import EvidenceError
from engine.inference.gain import entropy
from engine.inference.junction import junction_tree
from engine.inference.mixture import MixedTree
from engine.inference.mixture import calibrate as calibrate_any
from engine.inference.network import Network, Node, chance, gate, network, root
from engine.inference.noisy_node import ABSENT, SEEN, NoisyOr, node_gain
from engine.inference.noisy_or import (
    NoisyTree,
    assignments,
    calibrate,
    log2_evidence,
    states,
)

JOINT = NoisyOr(0.03, {"joint": (0.0, 0.8), "relay": (0.0, 0.5, 0.2)})
WARM = NoisyOr(0.1, {"joint": (0.0, 0.3), "crystal": (0.0, 0.7)})
NODES = {"knocked": JOINT, "warm": WARM}
EVIDENCE: list[dict[str, list[float]]] = [
    {"knocked": [0.0, 1.0]},
    {"knocked": [1.0, 0.0]},
    {"knocked": [0.0, 1.0], "warm": [0.0, 1.0]},
    {"knocked": [0.0, 1.0], "warm": [1.0, 0.0], "output": [0.1, 0.9]},
    {"warm": [0.0, 1.0], "output": [0.0, 1.0], "relay": [0.5, 0.9, 0.1]},
    {"knocked": [1.0, 0.0], "warm": [1.0, 0.0], "output": [0.9, 0.3]},
]


def _plain() -> list[Node]:
    """Return three causes and a signal that they harm."""
    causes = [
        root("joint", ("fine", "dry"), (0.9, 0.1)),
        root("relay", ("fine", "worn", "stuck"), (0.85, 0.1, 0.05)),
        root("crystal", ("fine", "lazy"), (0.95, 0.05)),
    ]
    worst = gate("output", ("right", "bad"), causes, lambda *s: _worst(*s))
    return [*causes, worst]


def _worst(*each: str) -> str:
    return "right" if set(each) == {"fine"} else "bad"


def _shown(node: NoisyOr, name: str, nodes: dict[str, Node]) -> Node:
    """Return a noisy-or node with its whole table."""
    parents = [nodes[cause] for cause in node.chances]
    rows = []
    for ways in product(*(range(len(parent.states)) for parent in parents)):
        chances = zip(node.chances.values(), ways, strict=True)
        absent = (1.0 - node.otherwise) * prod(1.0 - row[way] for row, way in chances)
        rows.append((absent, 1.0 - absent))
    return chance(name, ("absent", "seen"), parents, rows)


@pytest.fixture(scope="module")
def outside() -> NoisyTree:
    """Return the nodes outside of the tables."""
    return NoisyTree(junction_tree(network(_plain())), NODES)


@pytest.fixture(scope="module")
def inside() -> Network:
    """Return the nodes as part of the network."""
    nodes = {node.name: node for node in _plain()}
    shown = [_shown(node, name, nodes) for name, node in NODES.items()]
    return network([*nodes.values(), *shown])


@pytest.mark.parametrize("held", EVIDENCE)
def test_all_chances_are_those_with_the_nodes_inside(
    outside: NoisyTree, inside: Network, held: dict[str, list[float]]
) -> None:
    """Posteriors of causes, signal and nodes, and P(evidence), are those of the whole network."""
    ours, theirs = calibrate(outside, held), calibrate(junction_tree(inside), held)
    assert ours.log2_evidence == pytest.approx(theirs.log2_evidence, abs=1e-12)
    assert log2_evidence(outside, held) == pytest.approx(theirs.log2_evidence, abs=1e-12)
    for name in ("joint", "relay", "crystal", "output", "knocked", "warm"):
        assert ours.posterior(name) == pytest.approx(theirs.posterior(name), abs=1e-12)


@pytest.mark.parametrize("held", EVIDENCE)
def test_assignments_come_in_order_and_are_all(
    outside: NoisyTree, held: dict[str, list[float]]
) -> None:
    """Every joint state of the causes comes once, likeliest first, and they sum to P(evidence)."""
    found = list(assignments(outside, held))
    logs = [each.log2_joint for each in found]
    assert logs == sorted(logs, reverse=True)
    assert sum(2.0**log for log in logs) == pytest.approx(2.0 ** log2_evidence(outside, held))
    ways = [tuple(states(outside, each, ["joint", "relay", "crystal"])) for each in found]
    assert len(set(ways)) == len(ways)


def test_entropy_is_exact_where_nothing_was_seen(outside: NoisyTree) -> None:
    """What is absent is a likelihood on each cause; H is that of all joint states."""
    held = {"knocked": [1.0, 0.0], "output": [0.4, 0.9]}
    total = log2_evidence(outside, held)
    chances = [2.0 ** (each.log2_joint - total) for each in assignments(outside, held)]
    assert calibrate(outside, held).entropy_bits() == pytest.approx(entropy(chances), abs=1e-12)


def _rare() -> NoisyTree:
    """Return causes as rare as parts fail."""
    roots = [root(f"part-{n}", ("fine", "bad"), (1.0 - n / 500, n / 500)) for n in range(1, 5)]
    nodes = {"knocked": NoisyOr(0.02, {f"part-{n}": (0.0, n / 5) for n in range(1, 5)})}
    return NoisyTree(junction_tree(network(roots)), nodes)


def test_entropy_is_about_right_where_something_was_seen() -> None:
    """As if one cause at a time showed it: within a hundredth of a bit where causes are rare."""
    tree, held = _rare(), {"knocked": [*SEEN]}
    total = log2_evidence(tree, held)
    chances = [2.0 ** (each.log2_joint - total) for each in assignments(tree, held)]
    assert calibrate(tree, held).entropy_bits() == pytest.approx(entropy(chances), abs=0.01)


def test_the_gain_of_a_node_is_about_right() -> None:
    """Against H(causes) less its mean after seeing it or not, over every joint state."""
    tree = _rare()
    joint = list(assignments(tree, {}))
    before = entropy([2.0**each.log2_joint for each in joint])
    after = 0.0
    for row in (ABSENT, SEEN):
        total = log2_evidence(tree, {"knocked": [*row]})
        logs = [each.log2_joint - total for each in assignments(tree, {"knocked": [*row]})]
        after += 2.0**total * entropy([2.0**log for log in logs])
    gain = node_gain(tree.nodes["knocked"], calibrate(tree, {}))
    assert gain == pytest.approx(before - after, rel=0.02)


def test_a_node_is_given_whole(outside: NoisyTree) -> None:
    """Chances between are refused: error rates belong into the chances of the node."""
    with pytest.raises(EvidenceError) as caught:
        calibrate(outside, {"warm": [0.5, 0.5]})
    assert str(caught.value) == "warm: found [0.5, 0.5], expected [1, 0] or [0, 1]"


def test_a_node_found_both_ways_is_impossible(outside: NoisyTree) -> None:
    """Evidence of two times may exclude each other: no chance, no explanation, and no error."""
    both = {"knocked": [0.0, 0.0], "output": [0.1, 0.9]}
    assert log2_evidence(outside, both) == -inf
    assert not calibrate(outside, both).is_possible
    assert list(assignments(outside, both)) == []


def test_members_of_a_mixture_may_have_nodes(outside: NoisyTree) -> None:
    """A node that all members have is one node of the mixture."""
    other = NoisyTree(outside.inner, {"knocked": NoisyOr(0.5, {}), "warm": WARM})
    mixed = MixedTree("kind", (0.6, 0.4), (outside, other))
    prior = calibrate(outside, {}).posterior("knocked")[1]
    now = calibrate_any(mixed, {})
    assert now.posterior("knocked")[1] == pytest.approx(0.6 * prior + 0.4 * 0.5)
    seen = calibrate_any(mixed, {"knocked": [*SEEN]})
    share = 0.6 * prior / (0.6 * prior + 0.2)
    assert seen.posterior("kind") == pytest.approx([share, 1.0 - share])
    assert calibrate_any(mixed, {"knocked": [*ABSENT]}).posterior("knocked") == [1.0, 0.0]
