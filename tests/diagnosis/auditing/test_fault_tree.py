from itertools import product
from math import prod

import pytest

from engine.diagnosis.auditing.fault_tree import Branch, fault_tree
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.making.building import build_network
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.inference.cut_sets import evaluate
from tests.diagnosis.conftest import small_library

DARK = ("low", "absent")


def branches(branch: Branch) -> list[Branch]:
    """Return a branch and all below it."""
    return [branch, *(each for below in branch.below for each in branches(below))]


def test_a_tree_reaches_down_to_the_causes(beacon: SetModel) -> None:
    """The rail is weak by battery or joint; what is likelier comes first, the unlisted last."""
    tree = fault_tree(small_library(), beacon, "supply.rail", DARK).top
    assert (tree.kind, tree.name, tree.states) == ("any", "supply.rail", DARK)
    assert [(b.kind, b.name, b.states) for b in tree.below] == [
        ("cause", "supply.flat-battery", ("weak", "empty")),
        ("cause", "supply.fuse-joint", ("present",)),
        ("cause", "supply.unlisted-rail", DARK),
    ]


def test_a_rule_needs_all_its_conditions_and_nothing_is_drawn_twice(beacon: SetModel) -> None:
    """The output takes drive and rail; the rule asks for the drive again."""
    tree = fault_tree(small_library(), beacon, "sender.output", ("absent",)).top
    (rule,) = [b for b in tree.below if b.kind == "all"]
    assert [(b.kind, b.name, b.states) for b in rule.below] == [
        ("any", "sender.drive", ("low",)),
        ("cause", "sender.preset", ("present",)),
    ]
    gates = [(b.name, b.states) for b in branches(tree) if b.kind == "any"]
    assert len(gates) == len(set(gates))


def test_chances_are_those_of_the_network(beacon: SetModel) -> None:
    """Gates, causes and rules alike; the rule's is that of its gate."""
    known = calibrated(beacon, ())
    tree = fault_tree(small_library(), beacon, "sender.output", DARK).top
    for branch in branches(tree):
        states = beacon.tree.homes[branch.name].states
        assert 0.0 < branch.chance < 1.0
        if branch.name in beacon.signals:
            names = beacon.signals[branch.name].states
            pairs = zip(names, known.posterior(branch.name), strict=True)
            assert branch.chance == pytest.approx(sum(p for s, p in pairs if s in branch.states))
        elif branch.name in beacon.causes:
            assert branch.chance == pytest.approx(beacon.causes[branch.name].prior), branch.name
        else:
            assert (branch.name, states) == ("sender.output?0", 2)
            assert branch.chance == pytest.approx(known.posterior(branch.name)[1])


def test_cut_sets_of_a_symptom_are_those_of_the_model(beacon: SetModel) -> None:
    """Both are minimal; here they stand in order of size and chance, multiplied."""
    found = fault_tree(small_library(), beacon, "supply.rail", ("absent",)).cut_sets
    assert {one.causes for one in found} == set(beacon.cut_sets["supply.dark"])
    assert [one.chance for one in found] == sorted((one.chance for one in found), reverse=True)
    known = calibrated(beacon, ())
    empty = next(one for one in found if one.causes == (("supply.flat-battery", "empty"),))
    assert empty.chance == pytest.approx(known.posterior("supply.flat-battery")[2])


def test_two_causes_are_a_cut_set_only_where_one_is_not() -> None:
    """By going through all pairs: with a rule on rail and preset, neither is enough alone."""
    library = small_library(
        ("blocks/sender.yaml", "      drive: same\n", "      drive: {low: low}\n"),
        ("blocks/sender.yaml", "{drive: low, preset: present}", "{rail: low, preset: present}"),
    )
    model = compile_family(library, "beacon")
    found = fault_tree(library, model, "sender.output", ("absent",)).cut_sets
    net = build_network(library, library.families["beacon"])
    names = [n for n, c in model.causes.items() if c.kind != "event"]
    ways = [(n, w) for n in names for w in model.causes[n].ways]

    def falls(*events: tuple[str, str]) -> bool:
        return evaluate(net, dict(events))["sender.output"] == 2

    single = {(way,) for way in ways if falls(way)}
    pairs = {
        tuple(sorted(pair))
        for pair in product(ways, repeat=2)
        if pair[0][0] != pair[1][0] and falls(*pair)
    }
    minimal = single | {p for p in pairs if not {(p[0],), (p[1],)} & single}
    assert len(minimal) > len(single) > 0
    assert {one.causes for one in found} == minimal
    known = calibrated(model, ())
    for one in found:
        chances = [
            known.posterior(n)[1 + list(model.causes[n].ways).index(w)] for n, w in one.causes
        ]
        assert one.chance == pytest.approx(prod(chances))


def test_a_cause_is_its_own_tree(beacon: SetModel) -> None:
    """One leaf, and a cut set for each way."""
    tree = fault_tree(small_library(), beacon, "sender.output-transistor", ("shorted", "opened"))
    assert (tree.top.kind, tree.top.below) == ("cause", ())
    assert [one.causes for one in tree.cut_sets] == [
        (("sender.output-transistor", "shorted"),),
        (("sender.output-transistor", "opened"),),
    ]


def test_a_condition_that_may_be_in_order_is_not_drawn_further() -> None:
    """A rule that also holds with the rail right needs no cause of the rail."""
    library = small_library(
        (
            "blocks/sender.yaml",
            "{drive: low, preset: present}",
            "{preset: present, rail: [right, low]}",
        )
    )
    tree = fault_tree(library, compile_family(library, "beacon"), "sender.output", ("absent",)).top
    (rule,) = [b for b in tree.below if b.kind == "all"]
    assert [(b.kind, b.name) for b in rule.below] == [
        ("cause", "sender.preset"),
        ("given", "supply.rail"),
    ]
