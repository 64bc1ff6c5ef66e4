"""A mixture of networks against the one network it stands for."""

from itertools import islice

import pytest

from engine.inference.gain import channel, entropy, information_gain
from engine.inference.junction import junction_tree
from engine.inference.mixture import MixedTree, assignments, calibrate, log2_evidence, states
from engine.inference.network import Network, Node, gate, network, root

SHARES = (0.5, 0.3, 0.2)
SIGNAL = ("right", "low", "absent")


def _worst(*states: str) -> str:
    return max(states, key=SIGNAL.index)


def _member(prefix: str, part: float, supply: float, has_lamp: bool) -> list[Node]:
    """Return a set with two causes and one signal; every name begins with `prefix`."""
    low = root(f"{prefix}part", ("right", "low"), (1.0 - part, part))
    feed = root(f"{prefix}supply", ("right", "absent"), (1.0 - supply, supply))
    nodes = [low, feed, gate(f"{prefix}output", SIGNAL, [low, feed], _worst)]
    if has_lamp:
        nodes.append(gate(f"{prefix}lamp", ("lit", "dark"), [feed], lambda s: _dark(s)))
    return nodes


def _dark(supply: str) -> str:
    return "dark" if supply == "absent" else "lit"


FIGURES = ((0.1, 0.05, True), (0.02, 0.2, True), (0.3, 0.01, False))


@pytest.fixture(scope="module")
def mixed() -> MixedTree:
    """Return three kinds of set, the last without a lamp."""
    members = [junction_tree(network(_member("", *each))) for each in FIGURES]
    return MixedTree("kind", SHARES, tuple(members))


@pytest.fixture(scope="module")
def whole() -> Network:
    """Return the same as one network: all kinds side by side, and a root that picks one."""
    kind = root("kind", ("a", "b", "c"), SHARES)
    nodes: list[Node] = [kind]
    for letter, figures in zip("abc", FIGURES, strict=True):
        nodes += _member(letter, *figures)
    by_name = {node.name: node for node in nodes}
    for name, right in (
        ("part", "right"),
        ("supply", "right"),
        ("output", "right"),
        ("lamp", "lit"),
    ):
        parents = [by_name[f"{letter}{name}"] for letter in "abc" if f"{letter}{name}" in by_name]
        parent_states = parents[0].states

        def pick(which: str, *states: str, right: str = right) -> str:
            number = "abc".index(which)
            return states[number] if number < len(states) else right

        nodes.append(gate(name, parent_states, [kind, *parents], pick))
    return network(nodes)


EVIDENCE: list[dict[str, list[float]]] = [
    {},
    {"output": [0.05, 0.9, 0.3]},
    {"output": [0.0, 1.0, 0.2], "lamp": [0.9, 0.1]},
    {"lamp": [0.02, 0.98]},
    {"kind": [0.1, 0.8, 0.7], "output": [0.2, 0.1, 0.9], "supply": [0.3, 0.6]},
]
NAMES = ("part", "supply", "output", "lamp", "kind")


@pytest.mark.parametrize("held", EVIDENCE)
def test_posteriors_are_those_of_the_one_network(
    mixed: MixedTree, whole: Network, held: dict[str, list[float]]
) -> None:
    """Every posterior, P(evidence) and every gain agree with one junction tree of it all."""
    ours, theirs = calibrate(mixed, held), calibrate(junction_tree(whole), held)
    assert ours.log2_evidence == pytest.approx(theirs.log2_evidence, abs=1e-12)
    assert log2_evidence(mixed, held) == ours.log2_evidence
    for name in NAMES:
        assert ours.posterior(name) == pytest.approx(theirs.posterior(name), abs=1e-12)
    looks = channel([[0.9, 0.1], [0.2, 0.8], [0.3, 0.7]])
    for name in ("output", "kind"):
        gain = information_gain(ours.posterior(name), looks)
        assert gain == pytest.approx(information_gain(theirs.posterior(name), looks), abs=1e-12)


def test_entropy_is_that_of_kind_and_causes(mixed: MixedTree) -> None:
    """H(kind) and the mean of the members' entropies: by hand, from the priors."""
    inside = [entropy((a, 1 - a)) + entropy((b, 1 - b)) for a, b, _ in FIGURES]
    expected = entropy(SHARES) + sum(s * h for s, h in zip(SHARES, inside, strict=True))
    assert calibrate(mixed, {}).entropy_bits() == pytest.approx(expected, abs=1e-12)


def test_joint_explanations_come_in_order_over_all_members(mixed: MixedTree) -> None:
    """The assignments of all members are merged, their chances sum to P(evidence)."""
    held = {"output": [0.05, 0.9, 0.3], "lamp": [0.9, 0.2]}
    found = list(assignments(mixed, held))
    logs = [each.log2_joint for each in found]
    assert logs == sorted(logs, reverse=True)
    assert sum(2.0**log for log in logs) == pytest.approx(2.0 ** log2_evidence(mixed, held))
    (first,) = islice(assignments(mixed, held), 1)
    assert states(mixed, first, ["part", "supply", "lamp"]) == [1, 0, 0]


def test_what_cannot_be_is_said(mixed: MixedTree) -> None:
    """A kind without a lamp cannot show a dark one; with that kind alone nothing is possible."""
    held = {"kind": [0.0, 0.0, 1.0], "lamp": [0.0, 1.0]}
    calibration = calibrate(mixed, held)
    assert not calibration.is_possible
    assert list(assignments(mixed, held)) == []


def test_a_hopeless_member_is_left_out(mixed: MixedTree) -> None:
    """Looks overwhelmingly against a member spare its pass."""
    calibration = calibrate(mixed, {"kind": [1.0, 1e-9, 1e-3]})
    assert calibration.posterior("kind")[1] == 0.0
    assert calibration.posterior("kind")[0] == pytest.approx(0.5 / (0.5 + 0.2e-3))
