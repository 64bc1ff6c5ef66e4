"""Vesely et al. 1981, Fault Tree Handbook, NUREG-0492, chapters VIII and XI: the pressure tank.

Tree and numbers from memory of the handbook; results by its formulas. T is the tank itself, K2 and
K1 relays, S the pressure switch, S1 the push button, R the timer relay.
"""

from math import prod

import pytest

from engine.inference.cut_sets import minimal_cut_sets
from engine.inference.junction import junction_tree
from engine.inference.network import Network, Node, gate, network, root
from engine.inference.propagation import calibrate

CHANCES = {"T": 5e-6, "K2": 3e-5, "S": 1e-4, "S1": 3e-5, "K1": 3e-5, "R": 1e-4}
OK_BAD = ("ok", "bad")


def any_bad(*words: str) -> str:
    """Return the word of an or-gate."""
    return "bad" if "bad" in words else "ok"


def all_bad(*words: str) -> str:
    """Return the word of an and-gate."""
    return "bad" if set(words) == {"bad"} else "ok"


def pressure_tank() -> Network:
    """Return the tree: top = T + K2 + S (S1 + K1 + R)."""
    event: dict[str, Node] = {name: root(name, OK_BAD, [1.0 - p, p]) for name, p in CHANCES.items()}
    closed = gate("closed", OK_BAD, [event["S1"], event["K1"], event["R"]], any_bad)
    both = gate("both", OK_BAD, [event["S"], closed], all_bad)
    top = gate("top", OK_BAD, [event["T"], event["K2"], both], any_bad)
    return network([*event.values(), closed, both, top])


NET = pressure_tank()
TREE = junction_tree(NET)
CUT_SETS = {"T": 5e-6, "K2": 3e-5, "K1 S": 3e-9, "S S1": 3e-9, "R S": 1e-8}


def p_top(**known: float) -> float:
    """Return P(top is bad), with the given chances of some events being bad."""
    found = {name: [1.0 - p, p] for name, p in known.items()}
    return calibrate(TREE, found).posterior("top")[1]


def named_cut_sets() -> dict[str, float]:
    """Return the engine's minimal cut sets with their probabilities."""
    found = minimal_cut_sets(NET, "top", ["bad"], 6)
    names = [sorted(name for name, _ in events) for events in found]
    return {" ".join(some): prod(CHANCES[name] for name in some) for some in names}


def test_minimal_cut_sets() -> None:
    """Two single events and three pairs, each with its probability."""
    assert named_cut_sets() == pytest.approx(CUT_SETS, rel=1e-12)


def test_sum_of_the_cut_sets() -> None:
    """The sum of the cut sets is a little above the exact figure: 3.50160e-5."""
    assert sum(named_cut_sets().values()) == pytest.approx(3.50160e-5, abs=5e-11)


def test_probability_of_the_top_event() -> None:
    """Exactly, with no approximation for rare events: 3.501585e-5."""
    assert p_top() == pytest.approx(3.501585e-5, abs=5e-12)


@pytest.mark.parametrize(
    ("event", "importance", "digit"),
    [
        ("T", 0.99997, 1e-5),
        ("K2", 0.999995, 1e-6),
        ("S", 1.600e-4, 1e-7),
        ("S1", 9.998e-5, 1e-8),
        ("K1", 9.998e-5, 1e-8),
        ("R", 9.999e-5, 1e-8),
    ],
)
def test_birnbaum_importance(event: str, importance: float, digit: float) -> None:
    """How much more likely the top event is when an event is sure than when it is ruled out."""
    found = p_top(**{event: 1.0}) - p_top(**{event: 0.0})
    assert found == pytest.approx(importance, abs=digit / 2)


@pytest.mark.parametrize(
    ("event", "share", "digit"),
    [
        ("T", 0.14279, 1e-5),
        ("K2", 0.85675, 1e-5),
        ("S", 0.000457, 1e-6),
        ("S1", 0.0000857, 1e-7),
        ("K1", 0.0000857, 1e-7),
        ("R", 0.000286, 1e-6),
    ],
)
def test_share_of_the_top_event(event: str, share: float, digit: float) -> None:
    """Fussell-Vesely: the cut sets an event is in, over P(top)."""
    through = sum(p for names, p in named_cut_sets().items() if event in names.split())
    assert through / p_top() == pytest.approx(share, abs=digit / 2)


@pytest.mark.parametrize(("event", "share"), [("T", 0.14279), ("K2", 0.85675)])
def test_posterior_of_a_single(event: str, share: float) -> None:
    """For an event that is a cut set alone, the share is its posterior given the top event."""
    found = calibrate(TREE, {"top": [0.0, 1.0]})
    assert found.posterior(event)[1] == pytest.approx(share, abs=5e-6)
