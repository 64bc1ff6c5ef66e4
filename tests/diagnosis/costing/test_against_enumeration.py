"""Blame and expected cost against exact enumeration on small random networks.

Two of five causes are harmed by one event, so that several faults at a time are far from rare.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations, permutations
from random import Random
from statistics import mean

import pytest

from engine.diagnosis.costing.blame import parts_in, sight, trouble, with_trouble
from engine.diagnosis.model import CauseText, FamilyText, SetModel, SignalText
from engine.inference.junction import junction_tree
from engine.inference.network import Network, Node, chance, gate, network, root
from engine.inference.past import calibrate
from engine.inference.repairs import Plan, Trial, cheapest_plan, expected_cost
from tests import oracles

SCALE = ("right", "weak", "dead")
CAUSES = tuple(f"b.c{number}" for number in range(5))
LAST_RESORT = 100.0
SEEDS = range(80)


@dataclass(frozen=True)
class Scene:
    """A network with what was found, what the engine makes of it, and the exact answers."""

    parts: dict[str, float]
    minutes: dict[str, float]
    plan: Plan
    lasts: dict[frozenset[str], float]  # causes put right -> chance that there is trouble still

    def exact(self, order: tuple[str, ...]) -> float:
        """Return the expected cost of an order of repairs."""
        total, done = 0.0, frozenset[str]()
        for name in order:
            total += self.lasts[done] * self.minutes[name]
            done |= {name}
        return total + self.lasts[done] * LAST_RESORT

    def least(self) -> float:
        """Return the expected cost of the best order of the best choice of repairs."""
        some = (each for count in range(6) for each in combinations(CAUSES, count))
        return min(self.exact(order) for each in some for order in permutations(each))


def test_what_is_behind_a_trouble() -> None:
    """The chance that a cause alone would bring it about: within 0.01 where the worst decides."""
    errors = [
        abs(part - scene.lasts[frozenset(CAUSES) - {name}])
        for scene in scenes("worst")
        for name, part in scene.parts.items()
    ]
    assert len(errors) == 5 * 32
    assert mean(errors) < 0.0002
    assert max(errors) < 0.01


@pytest.mark.parametrize(
    ("gates", "in_the_mean", "at_most"), [("worst", 1.004, 1.05), ("mixed", 1.02, 1.15)]
)
def test_what_the_chosen_order_really_costs(gates: str, in_the_mean: float, at_most: float) -> None:
    """More than the best of all orders of all choices, by 5 %; by 15 % where faults take two."""
    over = [scene.exact(_names(scene.plan)) / scene.least() for scene in scenes(gates)]
    assert min(over) >= 1.0 - 1e-12
    assert mean(over) < in_the_mean
    assert max(over) < at_most


@pytest.mark.parametrize(
    ("gates", "in_the_mean", "at_most"), [("worst", 1.03, 1.12), ("mixed", 1.1, 1.9)]
)
def test_what_the_chosen_order_is_said_to_cost(
    gates: str, in_the_mean: float, at_most: float
) -> None:
    """Never too cheap; too dear where two faults must meet and either repair would do."""
    said = [scene.plan.cost / scene.exact(_names(scene.plan)) for scene in scenes(gates)]
    assert min(said) > 0.999
    assert mean(said) < in_the_mean
    assert max(said) < at_most


@pytest.mark.parametrize("gates", ["worst", "mixed"])
def test_no_other_order_is_said_to_be_much_cheaper(gates: str) -> None:
    """By its own account, too, the plan is the cheapest of all orders, within 2 %."""
    for scene in scenes(gates):
        trials = [Trial(name, scene.parts[name], scene.minutes[name]) for name in CAUSES]
        faults = sum(scene.parts.values())
        some = (each for count in range(6) for each in combinations(trials, count))
        orders = (order for each in some for order in permutations(each))
        least = min(expected_cost(order, LAST_RESORT, faults) for order in orders)
        assert least - 1e-9 <= scene.plan.cost <= 1.02 * least


def _names(plan: Plan) -> tuple[str, ...]:
    return tuple(each.name for each in plan.order)


@cache
def scenes(gates: str) -> tuple[Scene, ...]:
    """Return what every seed gives in which something is wrong."""
    found = (_scene(Random(f"blame {seed}"), gates) for seed in SEEDS)
    return tuple(scene for scene in found if scene is not None)


def _scene(dice: Random, gates: str) -> Scene | None:
    net = _network(dice, GATES[gates])
    held = _found(dice, [name for name in net.nodes if name.startswith("b.s")])
    minutes = {name: dice.uniform(5.0, 40.0) for name in CAUSES}
    model = _model(net)
    found = trouble(model, held, calibrate(model.tree, held))
    if found is None:
        return None
    seen = sight(found, CAUSES)
    parts = parts_in(with_trouble(seen, found.p_right), seen.right)
    trials = [Trial(n, p, minutes[n]) for n, p in zip(CAUSES, parts, strict=True)]
    plan = cheapest_plan(trials, LAST_RESORT, sum(parts))
    by_name = dict(zip(CAUSES, parts, strict=True))
    return Scene(by_name, minutes, plan, _lasts(net, held, found.signals))


def _worst(*states: str) -> str:
    return max(states, key=SCALE.index)


def _together(*states: str) -> str:
    """Weak is nothing alone; two of it are."""
    return "weak" if states == ("weak", "weak") else "dead" if "dead" in states else "right"


GATES = {"worst": (_worst,), "mixed": (_worst, _worst, _together)}


def _network(dice: Random, gates: Sequence[Callable[..., str]]) -> Network:
    past = root("b.past", ("quiet", "drop"), (0.95, 0.05))
    nodes: list[Node] = [past]
    for name in CAUSES:
        p = dice.uniform(0.005, 0.05)
        row = [1.0 - p, 0.6 * p, 0.4 * p]
        if name in CAUSES[:2]:
            nodes.append(chance(name, SCALE, [past], [row, [0.6, 0.3, 0.1]]))
        else:
            nodes.append(root(name, SCALE, row))
    for number in range(5):
        way = dice.choice(gates)
        nodes.append(gate(f"b.s{number}", SCALE, dice.sample(nodes[1:], 2), way))
    return network(nodes)


def _found(dice: Random, names: list[str]) -> dict[str, list[float]]:
    """Return three findings that are right nine times in ten."""
    shown = {name: dice.randrange(3) for name in dice.sample(names, 3)}
    return {name: [0.9 if s == at else 0.05 for s in range(3)] for name, at in shown.items()}


def _lasts(
    net: Network, held: dict[str, list[float]], signals: tuple[str, ...]
) -> dict[frozenset[str], float]:
    """Return for each choice of repairs the chance that some of the trouble is left, exactly."""
    rows = [
        (row, p) for row, p in oracles.joint(net, held) if any(row[signal] for signal in signals)
    ]
    total = sum(p for _, p in rows)
    lasts = {}
    for count in range(len(CAUSES) + 1):
        for done in combinations(CAUSES, count):
            wrong = (p for row, p in rows if _is_wrong(net, row, done, signals))
            lasts[frozenset(done)] = sum(wrong) / total
    return lasts


def _is_wrong(
    net: Network, row: oracles.Row, done: tuple[str, ...], signals: tuple[str, ...]
) -> bool:
    """Whether any of the trouble is left once some causes of an assignment were put right."""
    now = {**row, **dict.fromkeys(done, 0)}
    for node in net.nodes.values():
        if node.name.startswith("b.s"):
            now[node.name] = next(s for s in range(3) if oracles.chance_of(node, now, s))
    return any(now[signal] for signal in signals)


def _model(net: Network) -> SetModel:
    """Return a set that is nothing but its tables, its causes and its past."""
    ways = {"weak": "Weak", "dead": "Dead"}
    causes = {
        name: CauseText(name, "b", name, "fault", "", "", (), "estimate", 0.01, ways)
        for name in CAUSES
    }
    event = CauseText("b.drop", "b", "drop", "event", "", "", (), "estimate", 0.05, {"present": ""})
    return SetModel(
        family=FamilyText("invented", "", "", (), "", "", "estimate"),
        version="",
        blocks={},
        edges=(),
        signals={"b.past": SignalText("b.past", "Past", "quality", ("quiet", "drop"))},
        causes={**causes, "b.drop": event},
        checks={},
        instruments={},
        cautions={},
        cut_sets={},
        p_all_fine=0.5,
        tree=junction_tree(net),
    )
