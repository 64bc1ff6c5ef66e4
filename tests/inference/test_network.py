from collections.abc import Callable
from math import nan

import pytest

from engine.errors import NetworkError
from engine.inference.network import Node, chance, gate, network, root

FUSE = root("fuse", ["fine", "blown"], [0.9, 0.1])
LAMP = gate("lamp", ["lit", "dark"], [FUSE], lambda fuse: "lit" if fuse == "fine" else "dark")


def test_parents_come_before_children() -> None:
    """Whatever the order of the nodes, the network has parents first."""
    assert list(network([LAMP, FUSE]).nodes) == ["fuse", "lamp"]


def test_a_gate_has_one_entry_for_each_combination() -> None:
    """What cannot be is left out of the table of a gate."""
    assert LAMP.table == {(0, 0): 1.0, (1, 1): 1.0}


def test_zero_entries_are_left_out() -> None:
    """A probability of 0 takes no room."""
    assert root("fuse", ["fine", "blown"], [1.0, 0.0]).table == {(0,): 1.0}
    assert chance("lamp", ["lit", "dark"], [FUSE], [[1.0, 0.0], [0.25, 0.75]]).table == {
        (0, 0): 1.0,
        (1, 0): 0.25,
        (1, 1): 0.75,
    }


def test_the_last_parent_runs_fastest() -> None:
    """The rows of a chance node run through its parents like the digits of a number."""
    switch = root("switch", ["on", "off", "between"], [0.5, 0.3, 0.2])
    rows = [[n / 8.0, 1.0 - n / 8.0] for n in range(1, 7)]
    lamp = chance("lamp", ["lit", "dark"], [FUSE, switch], rows)
    assert lamp.table[1, 0, 0] == 4 / 8
    assert lamp.table[0, 2, 1] == 1.0 - 3 / 8


def test_cards_count_the_states() -> None:
    """Every variable is listed with the number of its states."""
    three = root("switch", ["on", "off", "between"], [0.5, 0.3, 0.2])
    assert network([three, LAMP, FUSE]).cards() == {"switch": 3, "fuse": 2, "lamp": 2}


WRONG = {
    "two of one name": ([FUSE, FUSE], "fuse: found twice, expected once"),
    "a parent that is missing": ([LAMP], "lamp: parent 'fuse' is not in the network"),
    "a prior that sums to less": (
        [root("fuse", ["fine", "blown"], [0.9, 0.05])],
        "fuse(): row sums to 0.95, expected 1",
    ),
    "a row that sums to more": (
        [FUSE, chance("lamp", ["lit", "dark"], [FUSE], [[1.0, 0.0], [0.75, 0.5]])],
        "lamp(1,): row sums to 1.25, expected 1",
    ),
    "a row that is missing": (
        [FUSE, Node("lamp", ("lit", "dark"), ("fuse",), {(0, 0): 1.0})],
        "lamp(1,): row sums to 0, expected 1",
    ),
    "a probability below zero": (
        [FUSE, chance("lamp", ["lit", "dark"], [FUSE], [[1.0, 0.0], [0.5, -0.25]])],
        "lamp(1, 1): found -0.25, expected 0 to 1",
    ),
    "a probability above one": (
        [root("fuse", ["fine", "blown"], [1.5, -0.5])],
        "fuse(0,): found 1.5, expected 0 to 1",
    ),
    "a probability that is no number": (
        [root("fuse", ["fine", "blown"], [nan, 1.0])],
        "fuse(0,): found nan, expected 0 to 1",
    ),
    "a state named twice": (
        [root("fuse", ["fine", "fine"], [0.5, 0.5])],
        "fuse: state 'fine' found twice, expected once",
    ),
    "a parent named twice": (
        [FUSE, gate("lamp", ["lit", "dark"], [FUSE, FUSE], lambda one, other: "lit")],
        "lamp: parent 'fuse' found twice, expected once",
    ),
    "a row for a parent's state that is not there": (
        [FUSE, Node("lamp", ("lit", "dark"), ("fuse",), {(0, 0): 1.0, (1, 1): 1.0, (2, 1): 1.0})],
        "lamp: found an entry for (2, 1), expected 2 state numbers (0 to 1, 0 to 1)",
    ),
    "an entry for a state of its own that is not there": (
        [FUSE, Node("lamp", ("lit", "dark"), ("fuse",), {(0, 0): 1.0, (1, 2): 1.0})],
        "lamp: found an entry for (1, 2), expected 2 state numbers (0 to 1, 0 to 1)",
    ),
    "an entry counted from the end": (
        [Node("fuse", ("fine", "blown"), (), {(-1,): 1.0})],
        "fuse: found an entry for (-1,), expected 1 state numbers (0 to 1)",
    ),
    "an entry of the wrong length": (
        [FUSE, Node("lamp", ("lit", "dark"), ("fuse",), {(0,): 1.0, (1,): 1.0})],
        "lamp: found an entry for (0,), expected 2 state numbers (0 to 1, 0 to 1)",
    ),
    "a circle": (
        [
            Node("hen", ("no", "yes"), ("egg",), {(0, 0): 1.0, (1, 1): 1.0}),
            Node("egg", ("no", "yes"), ("hen",), {(0, 0): 1.0, (1, 1): 1.0}),
        ],
        "a cycle: hen -> egg",
    ),
}


@pytest.mark.parametrize(("nodes", "message"), WRONG.values(), ids=WRONG)
def test_what_is_no_network_is_refused(nodes: list[Node], message: str) -> None:
    """Nodes that do not make a network are refused, saying where and what."""
    with pytest.raises(NetworkError) as refused:
        network(nodes)
    assert str(refused.value) == message


MISMADE: dict[str, tuple[Callable[[], Node], str]] = {
    "a prior that is too short": (
        lambda: root("fuse", ["fine", "blown", "gone"], [0.5, 0.5]),
        "fuse: found a prior of 2 numbers, expected 3",
    ),
    "a prior that is too long": (
        lambda: root("fuse", ["fine", "blown"], [0.5, 0.25, 0.25]),
        "fuse: found a prior of 3 numbers, expected 2",
    ),
    "a row that is too short": (
        lambda: chance("lamp", ["lit", "dark"], [FUSE], [[1.0, 0.0], [1.0]]),
        "lamp(1,): found a row of 1 numbers, expected 2",
    ),
    "a rule that lands nowhere": (
        lambda: gate("lamp", ["lit", "dark"], [FUSE], lambda fuse: "dim"),
        "lamp(0,): found 'dim', expected one of lit, dark",
    ),
}


@pytest.mark.parametrize(("make", "message"), MISMADE.values(), ids=MISMADE)
def test_what_is_no_node_is_refused(make: Callable[[], Node], message: str) -> None:
    """Numbers that do not go with the states are refused where the node is made."""
    with pytest.raises(NetworkError) as refused:
        make()
    assert str(refused.value) == message


def test_a_table_with_too_few_rows_is_refused() -> None:
    """A chance node needs one row for each combination of its parents."""
    with pytest.raises(NetworkError) as refused:
        chance("lamp", ["lit", "dark"], [FUSE], [[1.0, 0.0]])
    assert str(refused.value) == "lamp: found 1 rows, expected 2"
