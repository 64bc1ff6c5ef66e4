from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import inf, log2, nan
from random import Random

import pytest

from engine.errors import EvidenceError
from engine.inference.junction import junction_tree
from engine.inference.network import Network, chance, gate, network, root
from engine.inference.propagation import JunctionTree, calibrate, log2_evidence
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
        assert partial.log2_evidence == pytest.approx(full.log2_evidence, abs=CLOSE)
        assert [*partial.beliefs] == [*full.beliefs]


def with_evidence_inside(tree: JunctionTree, found: dict[str, list[float]]) -> JunctionTree:
    """Return a tree with findings in its weights: its pass at rest visits every clique."""
    cliques = [*tree.cliques]
    for variable, vector in sorted(found.items()):
        home = tree.homes[variable]
        pairs = zip(cliques[home.clique].weights, home.state_of, strict=True)
        weights = tuple(weight * vector[state] for weight, state in pairs)
        cliques[home.clique] = replace(cliques[home.clique], weights=weights)
    return JunctionTree(tuple(cliques), tree.homes)


@pytest.mark.parametrize("seed", range(20))
def test_a_pass_does_not_depend_on_those_before_it(seed: int) -> None:
    """A case that grows, changes and shrinks ends in the very numbers of a tree never used."""
    net = random_network(seed, 40, most_parents=2)
    used, dice = junction_tree(net), Random(seed)
    found = random_likelihoods(net, seed, 12)
    for _ in range(30):
        some = {name: found[name] for name in dice.sample([*found], dice.randint(0, len(found)))}
        for name in some:
            if dice.random() < 0.2:
                some[name] = [row / 2.0 + 0.1 for row in some[name]]
        mine, fresh = calibrate(used, some), calibrate(JunctionTree(used.cliques, used.homes), some)
        assert mine.log2_evidence == fresh.log2_evidence
        assert [*mine.beliefs] == [*fresh.beliefs]


@pytest.mark.parametrize("seed", range(20))
def test_calibrating_leaves_no_trace(seed: int) -> None:
    """What was asked before changes no later answer: the pass at rest is never written to."""
    net = random_network(seed, 12)
    tree = junction_tree(net)
    before = [*calibrate(tree, {}).beliefs]
    calibrate(tree, random_likelihoods(net, seed, 6))
    assert [*calibrate(tree, {}).beliefs] == before


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


OPPOSED = {
    "half each way": ([2.0, 1.0], [1.0, 2.0]),
    "larger than any number together": ([1e300, 1.0], [1.0, 1e300]),
    "smaller than any number together": ([1e-300, 1e-310], [1e-310, 1e-300]),
}


@pytest.mark.parametrize("signs", [2, 2200])
@pytest.mark.parametrize(("one", "other"), OPPOSED.values(), ids=OPPOSED)
def test_opposed_findings_in_one_clique(
    one: Sequence[float], other: Sequence[float], signs: int
) -> None:
    """As many findings for a state as against it leave the prior; P(evidence) is their product."""
    cause = root("cause", ["no", "yes"], [0.75, 0.25])
    shows = [gate(f"s{n}", ["no", "yes"], [cause], lambda word: word) for n in range(signs)]
    tree = junction_tree(network([cause, *shows]))
    found = {node.name: one if n < signs // 2 else other for n, node in enumerate(shows)}
    after = calibrate(tree, found)
    expected = signs // 2 * (log2(one[0]) + log2(one[1]))
    assert after.log2_evidence == pytest.approx(expected, rel=CLOSE)
    assert log2_evidence(tree, found) == after.log2_evidence
    # Logs up to two millions are good to 2e-10, and thousands of them are added.
    assert after.posterior("cause") == pytest.approx([0.75, 0.25], abs=1e-6)
    assert after.entropy_bits() == pytest.approx(calibrate(tree, {}).entropy_bits(), abs=1e-4)


@pytest.mark.parametrize("seed", SEEDS)
def test_any_finite_likelihood_will_do(seed: int) -> None:
    """From 1e-320 to 1e300 side by side, with some zeros: as by enumeration in fractions."""
    net, dice = random_network(seed, 9), Random(f"wild {seed}")
    found = {
        name: [p and 10.0 ** dice.uniform(-320, 300) for p in vector]
        for name, vector in random_likelihoods(net, seed, 6).items()
    }
    rows = exact_rows(net, found)
    total = sum(p for _, p in rows)
    after = calibrate(junction_tree(net), found)
    assert after.is_possible == bool(rows)
    if not rows:
        return
    log2_p = log2(total.numerator) - log2(total.denominator)
    assert after.log2_evidence == pytest.approx(log2_p, abs=1e-10)
    for name, node in net.nodes.items():
        exact = [
            sum(p for row, p in rows if row[name] == s) / total for s in range(len(node.states))
        ]
        assert after.posterior(name) == pytest.approx(list(map(float, exact)), abs=1e-10)


def exact_rows(net: Network, found: dict[str, list[float]]) -> list[tuple[oracles.Row, Fraction]]:
    """Return P(assignment, evidence) of every assignment, exactly, without rounding."""
    rows: list[tuple[oracles.Row, Fraction]] = [({}, Fraction(1))]
    for node in net.nodes.values():
        weights = [Fraction(p) for p in found.get(node.name, [1.0] * len(node.states))]
        rows = [
            ({**row, node.name: s}, p * Fraction(oracles.chance_of(node, row, s)) * weight)
            for row, p in rows
            for s, weight in enumerate(weights)
            if weight and oracles.chance_of(node, row, s)
        ]
    return rows


def test_a_tiny_likelihood_keeps_everything_finite() -> None:
    """Only ratios count: two that are alike change no posterior, however small they are."""
    after = calibrate(HUT, {"bell": [1e-320, 1e-320]})
    assert after.log2_evidence == pytest.approx(log2(1e-320), abs=CLOSE)
    assert after.posterior("bell") == pytest.approx([0.5, 0.5], abs=CLOSE)
    assert after.posterior("fuse") == pytest.approx([0.75, 0.25], abs=CLOSE)


def test_a_network_of_tiny_priors_is_calibrated() -> None:
    """Priors whose product no number holds are right too: the pass at rest takes logarithms."""
    nodes = [root("c0", ["no", "yes"], [1.0, 1e-100])]
    for n in range(1, 5):
        cause = root(f"c{n}", ["no", "yes"], [1.0, 1e-100])
        nodes += [cause, gate(f"g{n}", ["no", "yes"], [nodes[-1], cause], min)]
    after = calibrate(junction_tree(network(nodes)), {"g4": [0.0, 1.0]})
    assert after.log2_evidence == pytest.approx(5 * log2(1e-100), rel=CLOSE)
    assert after.posterior("c2") == pytest.approx([0.0, 1.0], abs=CLOSE)


def test_impossible_evidence_stays_an_answer_among_lopsided_findings() -> None:
    """In logarithms too, nothing is NaN."""
    found = {"bell": [1e300, 1e-300], "fuse": [1.0, 0.0], "lamp": [0.0, 1.0]}
    after = calibrate(HUT, found)
    assert (after.log2_evidence, after.beliefs) == (-inf, ())
    assert log2_evidence(HUT, found) == -inf


NO_VECTORS = {
    "too short": ({"bell": [1.0]}, "bell: found [1], expected 2 likelihoods"),
    "too long": ({"bell": [1.0, 1.0, 1.0]}, "bell: found [1, 1, 1], expected 2 likelihoods"),
    "empty": ({"bell": []}, "bell: found [], expected 2 likelihoods"),
    "below zero": ({"fuse": [0.5, -0.25]}, "fuse: found [0.5, -0.25], expected 2 likelihoods"),
    "infinite": ({"fuse": [0.5, inf]}, "fuse: found [0.5, inf], expected 2 likelihoods"),
    "no number": ({"fuse": [nan, 0.5]}, "fuse: found [nan, 0.5], expected 2 likelihoods"),
}


@pytest.mark.parametrize(("found", "message"), NO_VECTORS.values(), ids=NO_VECTORS)
def test_what_is_no_likelihood_is_refused(found: dict[str, list[float]], message: str) -> None:
    """One number for each state, finite and not negative."""
    for asked in (calibrate, log2_evidence):
        with pytest.raises(EvidenceError) as refused:
            asked(HUT, found)
        assert str(refused.value) == f"{message}, each finite and at least 0"


def test_a_likelihood_of_nothing_known_is_refused() -> None:
    """A variable that the tree has not cannot be observed."""
    with pytest.raises(EvidenceError) as refused:
        calibrate(HUT, {"door": [1.0, 1.0]})
    assert str(refused.value) == "door: found a likelihood, expected a variable of the tree"
