from collections.abc import Callable

import pytest

from engine.inference.cut_sets import evaluate, is_basic, minimal_cut_sets
from engine.inference.network import Network, Node, chance, gate, network, root
from tests import oracles
from tests.random_networks import random_gates

SEEDS = range(60)
OK_BAD = ("ok", "bad")


def basic(name: str) -> Node:
    """Return a basic event."""
    return root(name, OK_BAD, [0.9, 0.1])


def tree(rule: Callable[..., bool], *names: str) -> Network:
    """Return basic events and one gate, `top`, that is bad when `rule` of who is bad holds."""
    causes = [basic(name) for name in names]

    def lands(*words: str) -> str:
        return OK_BAD[rule(*(word == "bad" for word in words))]

    return network([*causes, gate("top", OK_BAD, causes, lands)])


def bad(*names: str) -> frozenset[tuple[str, str]]:
    """Return the set of events that these basic variables are bad."""
    return frozenset((name, "bad") for name in names)


GATES = {
    "or": (tree(lambda a, b: a or b, "a", "b"), [bad("a"), bad("b")]),
    "and": (tree(lambda a, b: a and b, "a", "b"), [bad("a", "b")]),
    "two of three": (
        tree(lambda a, b, c: a + b + c >= 2, "a", "b", "c"),
        [bad("a", "b"), bad("a", "c"), bad("b", "c")],
    ),
    "absorbed": (tree(lambda a, b, c: a or (b and c and a), "a", "b", "c"), [bad("a")]),
    "never": (tree(lambda a: False, "a"), []),
    "always": (tree(lambda a: True, "a"), [frozenset()]),
}


@pytest.mark.parametrize(("net", "expected"), GATES.values(), ids=GATES)
def test_one_gate(net: Network, expected: list[frozenset[tuple[str, str]]]) -> None:
    """Smallest sets first, then by name; nothing at all where the event needs nothing."""
    assert list(minimal_cut_sets(net, "top", ["bad"], 3)) == expected


@pytest.mark.parametrize("largest", [1, 2, 3])
@pytest.mark.parametrize("states", [["dead"], ["weak", "dead"]], ids="-".join)
@pytest.mark.parametrize("seed", SEEDS)
def test_coherent_trees_equal_an_exhaustive_search(
    seed: int, states: list[str], largest: int
) -> None:
    """Where no worse input makes a better output, trying every set of events finds the same."""
    net = random_gates(seed, 6, 6, coherent=True)
    found = minimal_cut_sets(net, "top", states, largest)
    assert len(set(found)) == len(found)
    assert set(found) == oracles.minimal_cut_sets(net, "top", set(states), largest)


@pytest.mark.parametrize("states", [["dead"], ["weak"], ["weak", "dead"]], ids="-".join)
@pytest.mark.parametrize("seed", SEEDS)
def test_what_holds_where_one_fault_may_hide_another(seed: int, states: list[str]) -> None:
    """In any tree: each named set is one, all singles are named, and no named pair is too large.

    Larger sets can be missed there, those that break something only to mend it again.
    """
    net = random_gates(seed, 6, 6, coherent=False)
    wanted = {net.nodes["top"].states.index(state) for state in states}
    found = minimal_cut_sets(net, "top", states, 3)
    exact = oracles.minimal_cut_sets(net, "top", set(states), 3)
    causes = oracles.causes_of(net)
    for events in found:
        numbers = {name: net.nodes[name].states.index(state) for name, state in events}
        assert oracles.follow(net, causes, numbers)["top"] in wanted
    assert {c for c in found if len(c) == 1} == {c for c in exact if len(c) == 1}
    assert {c for c in found if len(c) == 2} <= exact


def test_exactly_one_of_two() -> None:
    """When the second fault hides the first, the pair is no cut set though each alone is."""
    net = tree(lambda a, b: a != b, "a", "b")
    assert minimal_cut_sets(net, "top", ["bad"], 2) == (bad("a"), bad("b"))


def test_a_fault_that_must_be_absent_costs_nothing() -> None:
    """`a` without `b`: the set names a alone, for b is normal unless it is named."""
    net = tree(lambda a, b: a and not b, "a", "b")
    assert minimal_cut_sets(net, "top", ["bad"], 2) == (bad("a"),)


def test_break_and_mend_is_missed() -> None:
    """The known limit: a breaks x and y, b mends y again, and the pair a, b goes unnamed.

    The expansion asks for x bad and for y not bad; the second costs it nothing, so that it tries
    a alone, finds that false, and has nothing left.
    """
    a, b = basic("a"), basic("b")
    y = gate("y", OK_BAD, [a, b], lambda a, b: "bad" if (a, b) == ("bad", "ok") else "ok")
    top = gate("top", OK_BAD, [a, y], lambda a, y: "bad" if (a, y) == ("bad", "ok") else "ok")
    net = network([a, b, y, top])
    assert oracles.minimal_cut_sets(net, "top", {"bad"}, 2) == {bad("a", "b")}
    assert minimal_cut_sets(net, "top", ["bad"], 2) == ()


def test_each_way_is_an_event_of_its_own() -> None:
    """A cause with two ways appears in the way that counts, and never in both at once."""
    valve = root("valve", ["fine", "stuck", "leaks"], [0.8, 0.1, 0.1])
    dry = gate("dry", ["no", "yes"], [valve], lambda v: "yes" if v == "stuck" else "no")
    wet = gate("wet", ["no", "yes"], [valve], lambda v: "yes" if v == "leaks" else "no")
    both = gate("both", ["no", "yes"], [dry, wet], min)
    net = network([valve, dry, wet, both])
    assert minimal_cut_sets(net, "dry", ["yes"], 2) == (frozenset({("valve", "stuck")}),)
    assert minimal_cut_sets(net, "both", ["yes"], 2) == ()


def test_a_cause_that_an_event_can_harm_is_basic() -> None:
    """What leads to a cause is not asked: the cut set ends at the cause itself."""
    surge = root("surge", ["no", "yes"], [0.9, 0.1])
    rows = [[0.99, 0.01], [0.5, 0.5]]
    fuse = chance("fuse", OK_BAD, [surge], rows)
    lamp = gate("lamp", OK_BAD, [fuse], lambda fuse: fuse)
    net = network([surge, fuse, lamp])
    assert [is_basic(net.nodes[name]) for name in ("surge", "fuse", "lamp")] == [True, True, False]
    assert minimal_cut_sets(net, "lamp", ["bad"], 2) == (bad("fuse"),)


@pytest.mark.parametrize("seed", range(20))
def test_evaluate_follows_the_gates(seed: int) -> None:
    """Every variable is what the slow way makes of it."""
    net = random_gates(seed, 6, 8, coherent=False)
    everything = evaluate(net, {"c0": net.nodes["c0"].states[-1], "c3": "weak"})
    numbers = {"c0": len(net.nodes["c0"].states) - 1, "c3": 1}
    assert everything == oracles.follow(net, oracles.causes_of(net), numbers)


def test_a_signal_can_have_hundreds_of_causes() -> None:
    """A long chain of gates is expanded step by step: each cause is a cut set of its own."""
    causes = [basic(f"c{n:04}") for n in range(400)]
    nodes = [causes[0]]
    for number, cause in enumerate(causes[1:], start=1):
        name = f"g{number}" if number < 399 else "top"
        nodes += [cause, gate(name, OK_BAD, [nodes[-1], cause], min_of_ok)]
    found = minimal_cut_sets(network(nodes), "top", ["bad"], 2)
    assert list(found) == [bad(cause.name) for cause in causes]


def min_of_ok(*words: str) -> str:
    """Return `ok` when all are."""
    return "ok" if set(words) == {"ok"} else "bad"
