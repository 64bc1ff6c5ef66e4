from typing import Any

from engine.terminal.showing.tree_text import cut_set_lines, tree_lines


def branch(kind: str, name: str, *below: dict[str, Any]) -> dict[str, Any]:
    """Return a branch with one state and a chance of one in a hundred."""
    return {"kind": kind, "name": name, "states": ["low"], "chance": 0.01, "below": list(below)}


def test_a_deep_tree_stops_to_move_to_the_right() -> None:
    """Beyond the twelfth level the lines stand below each other."""
    tree = branch("cause", "end.cause")
    for number in range(14, 0, -1):
        tree = branch("any", f"stage-{number}.out", tree)
    lines = list(tree_lines(tree))
    assert [len(line) - len(line.lstrip()) for line in lines] == [
        *range(2, 25, 2), 24, 24, 24
    ]  # fmt: skip
    assert lines[-2:] == [
        f"{' ' * 24}stage-14.out low, 1 in 100 sets, by any of",
        f"{' ' * 24}end.cause low, 1 in 100 sets",
    ]


def test_a_gate_without_anything_below_says_no_more() -> None:
    """Nothing is known that brings it about."""
    assert list(tree_lines(branch("any", "past.out"))) == ["  past.out low, 1 in 100 sets"]


def test_only_the_likeliest_cut_sets_are_printed() -> None:
    """Twenty of each size, and how many are left."""
    one = [{"causes": [[f"a.c{n}", "present"]], "chance": 0.01} for n in range(22)]
    two = [{"causes": [["a.x", "in"], ["b.y", "out"]], "chance": 0.0001}]
    lines = list(cut_set_lines([*one, *two]))
    assert lines[0] == "  one cause: 22"
    assert lines[20:] == [
        "    a.c19 (present), 1 in 100 sets",
        "    and 2 rarer ones; --json has them",
        "  two causes together: 1",
        "    a.x (in) and b.y (out), 1 in 10000 sets",
    ]
