from dataclasses import replace
from math import inf, log2

import pytest

from engine.inference.junction import junction_tree
from engine.inference.network import Network, chance, gate, network, root
from engine.inference.propagation import JunctionTree, calibrate, log2_evidence, weighted
from tests import oracles
from tests.random_networks import random_likelihoods, random_network

SEEDS = range(80)
CLOSE = 1e-12  # the promise is 1e-9; sums of a few thousand doubles are good to 1e-12

FUSE = root("fuse", ["fine", "blown"], [0.75, 0.25])
LAMP = gate("lamp", ["lit", "dark"], [FUSE], lambda fuse: "lit" if fuse == "fine" else "dark")
BELL = root("bell", ["rings", "mute"], [0.5, 0.5])
HUT = junction_tree(network([FUSE, LAMP, BELL]))


@pytest.mark.parametrize("seed", SEEDS)
def test_answers_equal_enumeration(seed: int) -> None:
    """P(evidence), every posterior and the entropy are those of the whole joint."""
    net = random_network(seed, 9)
    found = random_likelihoods(net, seed, 3)
    rows = oracles.joint(net, found)
    calibration = calibrate(junction_tree(net), found)
    if not rows:
        assert not calibration.is_possible
        return
    p = oracles.p_evidence(rows)
    assert 2.0**calibration.log2_evidence == pytest.approx(p, rel=CLOSE)
    assert calibration.entropy_bits() == pytest.approx(
        oracles.entropy_bits(p for _, p in rows), abs=CLOSE
    )
    for name, node in net.nodes.items():
        expected = oracles.posterior(rows, name, len(node.states))
        assert calibration.posterior(name) == pytest.approx(expected, abs=CLOSE)


def test_few_random_findings_are_impossible() -> None:
    """At least 60 of the networks above are compared in full; some findings cannot be."""
    nets = {seed: random_network(seed, 9) for seed in SEEDS}
    possible = [seed for seed, net in nets.items() if oracles.joint(net, found_in(net, seed))]
    assert 60 <= len(possible) < len(SEEDS)


def found_in(net: Network, seed: int) -> dict[str, list[float]]:
    """Return the findings of the test above."""
    return random_likelihoods(net, seed, 3)


IMPOSSIBLE = {
    "nothing fits one variable": {"bell": [0.0, 0.0]},
    "two findings contradict": {"fuse": [1.0, 0.0], "lamp": [0.0, 1.0]},
    "in one part of a forest": {"bell": [0.5, 0.5], "lamp": [0.0, 1.0], "fuse": [1.0, 0.0]},
}


@pytest.mark.parametrize("found", IMPOSSIBLE.values(), ids=IMPOSSIBLE)
def test_the_impossible_is_an_answer(found: dict[str, list[float]]) -> None:
    """Evidence that cannot be has log2 P = -inf, and no beliefs; nothing is NaN."""
    calibration = calibrate(HUT, found)
    assert calibration.log2_evidence == -inf
    assert log2_evidence(HUT, found) == -inf
    assert not calibration.is_possible
    assert calibration.beliefs == ()


def test_a_zero_likelihood_rules_out_and_no_more() -> None:
    """A dark lamp proves the fuse, by Bayes with a zero: nothing is padded."""
    calibration = calibrate(HUT, {"lamp": [0.0, 1.0]})
    assert calibration.posterior("fuse") == [0.0, 1.0]
    assert calibration.posterior("bell") == [0.5, 0.5]
    assert calibration.log2_evidence == -2.0


@pytest.mark.parametrize("seed", range(20))
def test_a_partial_pass_equals_a_full_one(seed: int) -> None:
    """With findings in many places, going up from those alone gives the very same numbers."""
    net = random_network(seed, 40, most_parents=2)
    tree = junction_tree(net)
    for count in (1, 5, 20):
        found = random_likelihoods(net, seed, count)
        partial, full = calibrate(tree, found), calibrate(with_evidence_inside(tree, found), {})
        assert partial.log2_evidence == full.log2_evidence
        assert partial.beliefs == full.beliefs


def with_evidence_inside(tree: JunctionTree, found: dict[str, list[float]]) -> JunctionTree:
    """Return a tree with findings in its weights: its pass at rest visits every clique."""
    pairs = zip(tree.cliques, weighted(tree, found), strict=True)
    return JunctionTree(tuple(replace(c, weights=tuple(w)) for c, w in pairs), tree.homes)


@pytest.mark.parametrize("seed", range(20))
def test_calibrating_leaves_no_trace(seed: int) -> None:
    """What was asked before changes no later answer: the pass at rest is never written to."""
    net = random_network(seed, 12)
    tree = junction_tree(net)
    before = calibrate(tree, {}).beliefs
    calibrate(tree, random_likelihoods(net, seed, 6))
    assert calibrate(tree, {}).beliefs == before


@pytest.mark.parametrize("seed", range(20))
def test_findings_chain(seed: int) -> None:
    """P(this and that) = P(this) P(that | this)."""
    net = random_network(seed, 12)
    tree = junction_tree(net)
    found = random_likelihoods(net, seed, 4)
    *first, last = found
    before = calibrate(tree, {name: found[name] for name in first})
    together = log2_evidence(tree, found)
    if not before.is_possible:
        assert together == -inf
        return
    given = sum(p * q for p, q in zip(before.posterior(last), found[last], strict=True))
    expected = before.log2_evidence + log2(given) if given else -inf
    assert together == pytest.approx(expected, abs=CLOSE)


@pytest.mark.parametrize("seed", range(20))
def test_only_ratios_of_a_likelihood_matter(seed: int) -> None:
    """A likelihood eight times as large moves log2 P(evidence) by 3 bits and no posterior."""
    net = random_network(seed, 12)
    tree = junction_tree(net)
    found = random_likelihoods(net, seed, 2)
    name = next(iter(found))
    one, other = (
        calibrate(tree, found),
        calibrate(tree, found | {name: [8 * p for p in found[name]]}),
    )
    assert other.log2_evidence == pytest.approx(one.log2_evidence + 3.0, abs=CLOSE)
    assert one.is_possible == other.is_possible
    for variable in net.nodes if one.is_possible else ():
        assert other.posterior(variable) == pytest.approx(one.posterior(variable), abs=CLOSE)


@pytest.mark.parametrize("seed", range(20))
def test_a_likelihood_of_ones_says_nothing(seed: int) -> None:
    """A finding equally likely in every state leaves all posteriors as they were."""
    net = random_network(seed, 12)
    tree = junction_tree(net)
    nothing = {name: [1.0] * len(node.states) for name, node in net.nodes.items()}
    one, other = calibrate(tree, {}), calibrate(tree, nothing)
    assert other.log2_evidence == pytest.approx(0.0, abs=CLOSE)
    assert other.entropy_bits() == pytest.approx(one.entropy_bits(), abs=CLOSE)
    for variable in net.nodes:
        assert sum(other.posterior(variable)) == pytest.approx(1.0, abs=CLOSE)
        assert other.posterior(variable) == pytest.approx(one.posterior(variable), abs=CLOSE)


def test_two_thousand_findings_do_not_underflow() -> None:
    """P(evidence) of 2000 rare findings is far below the smallest double, and still right."""
    cause = root("cause", ["no", "yes"], [0.5, 0.5])
    rows = [[0.999, 0.001], [0.998, 0.002]]
    children = [chance(f"c{n}", ["no", "yes"], [cause], rows) for n in range(2000)]
    tree = junction_tree(network([cause, *children]))
    calibration = calibrate(tree, {child.name: [0.0, 1.0] for child in children})
    # P = (0.001 ** 2000 + 0.002 ** 2000) / 2, of which the first part is 2 ** -2000 of the whole.
    assert calibration.log2_evidence == pytest.approx(2000 * log2(0.002) - 1.0, rel=1e-12)
    assert calibration.posterior("cause") == pytest.approx([0.0, 1.0], abs=1e-15)


def test_posteriors_of_a_rare_cause_keep_their_digits() -> None:
    """A prior of 1e-12 is not lost: a finding 1e6 times likelier with it lifts it as Bayes says."""
    cause = root("cause", ["no", "yes"], [1.0 - 1e-12, 1e-12])
    sign = chance("sign", ["no", "yes"], [cause], [[1.0 - 1e-6, 1e-6], [0.0, 1.0]])
    after = calibrate(junction_tree(network([cause, sign])), {"sign": [0.0, 1.0]})
    expected = 1e-12 / (1e-12 + 1e-6 * (1.0 - 1e-12))
    assert after.posterior("cause")[1] == pytest.approx(expected, rel=CLOSE)
