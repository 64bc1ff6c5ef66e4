"""Adaptive against fixed order, and checks that are sometimes wrong.

A serial chain with one faulty stage; any stage output can be tested, without error. Best splitting:
Hu & Tucker 1971, SIAM J. Appl. Math. 21, 514; any test at all: Huffman 1952, Proc. IRE 40, 1098.
No published figures: expected tests by dynamic programming, gains by hand.
"""

from collections.abc import Sequence
from itertools import pairwise

import pytest

from engine.inference.gain import Channel, channel, entropy, information_gain
from engine.inference.junction import junction_tree
from engine.inference.network import Network, chance, gate, network, root
from engine.inference.propagation import JunctionTree, Likelihoods, calibrate

PERFECT = channel([[1.0, 0.0], [0.0, 1.0]])
UNEVEN = (0.05, 0.10, 0.15, 0.10, 0.30, 0.05, 0.20, 0.05)

# Priors of the stages: expected tests front to back, with best splitting, and entropy in bits.
CHAINS = {
    "4 equal": ((0.25,) * 4, 2.2500, 2.0000, 2.0000),
    "8 equal": ((0.125,) * 8, 4.3750, 3.0000, 3.0000),
    "10 equal": ((0.1,) * 10, 5.4000, 3.4000, 3.3219),
    "16 equal": ((0.0625,) * 16, 8.4375, 4.0000, 4.0000),
    "uneven": (UNEVEN, 4.6500, 2.9500, 2.7087),
    "halving": ((0.5, 0.25, 0.125, 0.125), 1.7500, 1.7500, 1.7500),
}


def chain(priors: Sequence[float]) -> Network:
    """Return which stage is faulty, and whether the output of each stage but the last is right."""
    stages = [str(number) for number in range(1, len(priors) + 1)]
    faulty = root("faulty", stages, priors)
    outputs = [
        gate(
            f"after {n}",
            ["bad", "right"],
            [faulty],
            lambda s, n=n: "bad" if int(s) <= n else "right",
        )
        for n in range(1, len(priors))
    ]
    return network([faulty, *outputs])


def gains(tree: JunctionTree, found: Likelihoods) -> dict[str, float]:
    """Return what testing each stage output would tell, in bits."""
    known = calibrate(tree, found)
    points = [name for name in tree.homes if name != "faulty"]
    return {name: information_gain(known.posterior(name), PERFECT) for name in points}


def best(gained: dict[str, float]) -> str:
    """Return the test of largest gain; of equals, which rounding may tell apart, the first."""
    return max(gained, key=lambda name: round(gained[name], 9))


def expected_tests(tree: JunctionTree, found: dict[str, list[float]]) -> float:
    """Return how many tests it takes from here, when each is the one that tells most."""
    gained = gains(tree, found)
    point = best(gained)
    if gained[point] < 1e-9:
        return 0.0
    bad, right = calibrate(tree, found).posterior(point)
    return (
        1.0
        + bad * expected_tests(tree, found | {point: [1.0, 0.0]})
        + right * expected_tests(tree, found | {point: [0.0, 1.0]})
    )


@pytest.mark.parametrize("row", CHAINS.values(), ids=CHAINS)
def test_going_for_the_largest_gain(row: tuple[Sequence[float], float, float, float]) -> None:
    """Always taking the check that tells most needs as few tests as the best splitting."""
    priors, fixed, split, bits = row
    found = expected_tests(junction_tree(chain(priors)), {})
    assert found == pytest.approx(split, abs=5e-5)
    assert found <= fixed + 1e-9
    assert bits - 5e-5 <= found < bits + 1.0


@pytest.mark.parametrize("row", CHAINS.values(), ids=CHAINS)
def test_entropy_of_the_priors(row: tuple[Sequence[float], float, float, float]) -> None:
    """The least number of tests on average that any plan could need."""
    assert entropy(row[0]) == pytest.approx(row[3], abs=5e-5)


@pytest.mark.parametrize("row", CHAINS.values(), ids=CHAINS)
def test_front_to_back(row: tuple[Sequence[float], float, float, float]) -> None:
    """Testing one output after another until one is bad, by the probabilities of the engine."""
    priors, fixed = row[:2]
    tree = junction_tree(chain(priors))
    reached, found = 1.0, {}
    expected = 0.0
    for number in range(1, len(priors)):
        expected += reached
        reached *= calibrate(tree, found).posterior(f"after {number}")[1]
        found[f"after {number}"] = [0.0, 1.0]
    assert expected == pytest.approx(fixed, abs=5e-5)


def test_first_split_of_the_uneven_chain() -> None:
    """The best splitting begins after stage 4, and so does the engine."""
    assert best(gains(junction_tree(chain(UNEVEN)), {})) == "after 4"


# P(bad | f1 .. f4): P(bad), posterior if bad, gain in bits. Priors below; H = 1.742738 bits.
NOISY = {
    "t1": ((0.95, 0.05, 0.05, 0.05), 0.5000, (0.950, 0.025, 0.015, 0.010), 0.713603),
    "t2": ((0.95, 0.95, 0.05, 0.05), 0.7250, (0.65517, 0.32759, 0.01034, 0.00690), 0.562151),
    "t3": ((0.5, 0.5, 0.5, 0.5), 0.5000, (0.50, 0.25, 0.15, 0.10), 0.0),
    "t4": ((0.05, 0.95, 0.05, 0.95), 0.3650, (0.06849, 0.65068, 0.02055, 0.26027), 0.660358),
}
FAULTS = root("fault", ["f1", "f2", "f3", "f4"], [0.50, 0.25, 0.15, 0.10])


def shows(test: str) -> Channel:
    """Return P(bad), P(good) for each fault."""
    return channel([[p, 1.0 - p] for p in NOISY[test][0]])


@pytest.mark.parametrize("test", NOISY)
def test_gain_of_a_noisy_test(test: str) -> None:
    """What a test that may be wrong tells, to six digits."""
    prior = calibrate(junction_tree(network([FAULTS])), {}).posterior("fault")
    assert entropy(prior) == pytest.approx(1.742738, abs=5e-7)
    assert information_gain(prior, shows(test)) == pytest.approx(NOISY[test][3], abs=5e-7)


@pytest.mark.parametrize("test", NOISY)
def test_posterior_after_a_noisy_test(test: str) -> None:
    """P(bad), and how likely each fault is then, to the digits of the table."""
    chances, p_bad, posterior, _ = NOISY[test]
    found = calibrate(junction_tree(network([FAULTS])), {"fault": chances})
    assert 2.0**found.log2_evidence == pytest.approx(p_bad, abs=5e-5)
    assert found.posterior("fault") == pytest.approx(posterior, abs=5e-6)


def test_order_of_the_noisy_tests() -> None:
    """The best is t1, then t4, t2, t3."""
    prior = [0.50, 0.25, 0.15, 0.10]
    gained = [information_gain(prior, shows(test)) for test in ("t1", "t4", "t2", "t3")]
    assert all(before > later for before, later in pairwise(gained))


def test_bayes_by_hand() -> None:
    """Prior 0.1, hit rate 0.9, false alarm 0.2: 0.09 / (0.09 + 0.18) = 1/3."""
    fault = root("fault", ["no", "yes"], [0.9, 0.1])
    alarm = chance("alarm", ["no", "yes"], [fault], [[0.8, 0.2], [0.1, 0.9]])
    found = calibrate(junction_tree(network([fault, alarm])), {"alarm": [0.0, 1.0]})
    assert found.posterior("fault")[1] == pytest.approx(1.0 / 3.0, abs=1e-15)
