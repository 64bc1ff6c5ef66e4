from math import log2

import pytest

from engine.inference.gain import channel, entropy, information_gain
from engine.inference.junction import junction_tree
from engine.inference.propagation import calibrate
from tests import oracles
from tests.random_networks import random_likelihoods, random_network, random_rows

SEEDS = range(70)
CLOSE = 1e-12  # the promise is 1e-9

# Cover & Thomas, Elements of Information Theory, examples 2.1.1 and 2.2.1; from memory.
ENTROPIES = {
    "sure": ([1.0, 0.0], 0.0),
    "a fair coin": ([0.5, 0.5], 1.0),
    "a, b, c, d": ([0.5, 0.25, 0.125, 0.125], 1.75),
    "blood groups": ([0.125, 0.25, 0.125, 0.5], 1.75),
    "eight alike": ([0.125] * 8, 3.0),
}


@pytest.mark.parametrize(("distribution", "bits"), ENTROPIES.values(), ids=ENTROPIES)
def test_entropy(distribution: list[float], bits: float) -> None:
    """The entropy of a few distributions that come out even."""
    assert entropy(distribution) == bits


@pytest.mark.parametrize("seed", SEEDS)
def test_gain_equals_enumeration_over_all_causes(seed: int) -> None:
    """The gain of a check is the mutual information of its outcome and all causes together.

    Causes are all variables but the gates. The engine sees one variable and no cause at all.
    """
    net = random_network(seed, 8)
    found = random_likelihoods(net, seed, 2)
    rows = oracles.joint(net, found)
    calibration = calibrate(junction_tree(net), found)
    assert calibration.is_possible == bool(rows)
    causes = sorted(oracles.causes_of(net))
    for name, node in net.nodes.items() if rows else ():
        shows = random_rows(seed, len(node.states), 3)
        gain = information_gain(calibration.posterior(name), channel(shows))
        expected = oracles.gain_bits(rows, causes, name, shows)
        assert gain == pytest.approx(expected, abs=CLOSE)


@pytest.mark.parametrize("flip", [0.0, 0.01, 0.11, 0.5])
def test_a_check_that_is_sometimes_wrong(flip: float) -> None:
    """Of even causes a check wrong with chance p tells 1 - H(p) bits.

    Cover & Thomas, section 7.1.4, the binary symmetric channel; from memory.
    """
    noise = -sum(p * log2(p) for p in (flip, 1.0 - flip) if p)
    gain = information_gain([0.5, 0.5], channel([[1.0 - flip, flip], [flip, 1.0 - flip]]))
    assert gain == pytest.approx(1.0 - noise, abs=CLOSE)


@pytest.mark.parametrize("seed", range(40))
def test_gain_lies_between_nothing_and_all(seed: int) -> None:
    """No check tells less than nothing, or more than the states or its outcomes hold."""
    (states,) = random_rows(seed, 1, 4)
    through = channel(random_rows(seed + 1, 4, 3))
    gain = information_gain(states, through)
    assert 0.0 <= gain <= min(entropy(states), log2(3)) + CLOSE


@pytest.mark.parametrize("seed", range(40))
def test_saying_less_never_tells_more(seed: int) -> None:
    """Two outcomes taken as one: the gain can only fall."""
    (states,) = random_rows(seed, 1, 4)
    rows = random_rows(seed + 1, 4, 3)
    merged = [[a + b, c] for a, b, c in rows]
    assert information_gain(states, channel(merged)) <= (
        information_gain(states, channel(rows)) + CLOSE
    )


@pytest.mark.parametrize("states", [[1.0, 0.0], [0.3, 0.7], [0.5, 0.5]])
def test_a_check_that_shows_all_gains_the_entropy(states: list[float]) -> None:
    """A check that names the state leaves nothing to learn about it."""
    gain = information_gain(states, channel([[1.0, 0.0], [0.0, 1.0]]))
    assert gain == pytest.approx(entropy(states), abs=CLOSE)


@pytest.mark.parametrize(("a", "b"), [(a, b) for a in (0.1, 0.5, 0.7) for b in (0.2, 0.9)])
def test_a_check_that_shows_nothing_gains_exactly_nothing(a: float, b: float) -> None:
    """Equal rows tell nothing, and rounding never makes that less than 0."""
    gain = information_gain([b, 1.0 - b], channel([[a, 1.0 - a]] * 2))
    assert gain == pytest.approx(0.0, abs=1e-15)
    assert gain >= 0.0
