"""The real family, held against two inference libraries and a quadrature routine.

Every finding is made up: what a set with a few given causes would show, each check coming out as
its likeliest outcome, or as the middle of what its state reads.
"""

import warnings
from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import log2
from random import Random
from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad

from engine.assessing.frequency_truth import truth_of
from engine.diagnosis.case import Finding
from engine.diagnosis.evidence import likelihoods
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.readings import Meter
from engine.inference import logarithms
from engine.inference.gain import information_gain
from engine.inference.network import Network, network
from engine.inference.propagation import calibrate
from tests import oracles
from tests.oracles import tables

CLOSE = 1e-9
BITS = 1e-7  # each panel of a reading is good to 1e-8 bits, and a reading has up to a few dozen

# The kinds of causes that are there, the kinds of checks made, and every how many of them.
CASES = {
    "nothing known": ((), (), 1),
    "a few symptoms": (("fault",), ("symptom",), 9),
    "every symptom": (("fault",), ("symptom",), 1),
    "a few readings": (("adjustment",), ("reading",), 17),
    "every reading": (("fault",), ("reading",), 1),
    "two causes, all sorts of checks": (
        ("fault", "modification"),
        ("symptom", "look", "question", "reading"),
        23,
    ),
    "three causes, all sorts of checks": (
        ("fault", "outside", "adjustment"),
        ("symptom", "look", "question", "reading"),
        7,
    ),
}
FEW = [name for name, case in CASES.items() if case[2] > 7 or not case[0]]


def evidence(name: str, net: Network, model: SetModel) -> dict[str, list[float]]:
    """Return the likelihoods of the findings of a case."""
    kinds, checks, step = CASES[name]
    dice = Random(name)
    events = {}
    for kind in kinds:
        cause = dice.choice([c for c in model.causes.values() if c.kind == kind])
        events[cause.id] = net.nodes[cause.id].states.index(next(iter(cause.ways)))
    state = oracles.follow(net, oracles.causes_of(net), events)
    made = [
        check
        for check in model.checks.values()
        if check.kind in checks and not is_further(check) and check.looks_at in tables(model).homes
    ][::step]
    return likelihoods(model, [finding(model, check, state[check.looks_at]) for check in made])


def is_further(check: CheckText) -> bool:
    """Whether a check reads a frequency on one more channel: three tell as much as forty."""
    return check.at is not None and check.at.channel > 3


def finding(model: SetModel, check: CheckText, state: int) -> Finding:
    """Return what a check shows, as a rule, in one state."""
    if check.at is not None:
        assert model.frequencies is not None
        value = truth_of(model.frequencies, state).value(check)
        return Finding(check.id, None, value, "")
    if check.meter is None:
        row = check.channel.rows[state]
        return Finding(check.id, list(check.outcomes)[row.index(max(row))], None, "")
    spread, (start, end) = check.meter.spreads[state], check.meter.span
    return Finding(check.id, None, min(max((spread.low + spread.high) / 2.0, start), end), "")


@pytest.fixture(scope="module")
def agrum(net: Network) -> Any:
    """Return the family as a network of pyAgrum."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # its wrapper is older than this Python
        import pyagrum
    other = pyagrum.BayesNet()
    for node in net.nodes.values():
        words = [str(state) for state in range(len(node.states))]
        other.add(pyagrum.LabelizedVariable(node.name, node.name, words))
    for node in net.nodes.values():
        for parent in node.parents:
            other.addArc(parent, node.name)
    for node in net.nodes.values():
        table = other.cpt(node.name)
        table.fillWith(0.0)
        entry = pyagrum.Instantiation(table)
        for states, p in node.table.items():
            for name, state in zip((*node.parents, node.name), states, strict=True):
                entry.chgVal(name, state)
            table.set(entry, p)
    return pyagrum.LazyPropagation(other)


@pytest.mark.parametrize("case", CASES)
def test_posteriors_equal_lazy_propagation(
    case: str, net: Network, model: SetModel, agrum: Any
) -> None:
    """P(findings), and the posterior of every cause and of all that was looked at: as pyAgrum."""
    found = evidence(case, net, model)
    tops = {name: max(weights) for name, weights in found.items()}
    ours = calibrate(tables(model), found)
    agrum.setEvidence({n: [w / tops[n] for w in weights] for n, weights in found.items()})
    agrum.setTargets({*model.causes, *found})
    agrum.makeInference()
    bits = log2(agrum.evidenceProbability()) + sum(map(log2, tops.values()))
    assert ours.log2_evidence == pytest.approx(bits, abs=CLOSE)
    for name in (*model.causes, *found):
        its = agrum.posterior(name).tolist()
        assert ours.posterior(name) == pytest.approx(its, abs=CLOSE), name


@pytest.fixture(scope="module")
def eliminating(net: Network) -> Any:
    """Return the family as pgmpy eliminates variables in it."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns of its own names
        from pgmpy.factors.discrete import TabularCPD
        from pgmpy.inference import VariableElimination
        from pgmpy.models import DiscreteBayesianNetwork
    other = DiscreteBayesianNetwork()
    other.add_nodes_from(net.nodes)
    other.add_edges_from((p, node.name) for node in net.nodes.values() for p in node.parents)
    for node in net.nodes.values():
        cards = [len(net.nodes[parent].states) for parent in node.parents]
        table = np.zeros((*cards, len(node.states)))
        for states, p in node.table.items():
            table[states] = p
        columns = table.reshape(-1, len(node.states)).T
        other.add_cpds(TabularCPD(node.name, len(node.states), columns, node.parents, cards))
    return VariableElimination(other)


@pytest.mark.filterwarnings("ignore")  # it warns of its own names, and of networks as large as this
@pytest.mark.parametrize("case", FEW)
def test_posteriors_equal_variable_elimination(
    case: str, net: Network, model: SetModel, eliminating: Any
) -> None:
    """The posteriors of the ten causes that moved most are those of pgmpy.

    It works on the whole family, but answers one question at a time, so that all causes would take
    minutes; its own junction tree is not done within a minute and a half.
    """
    from pgmpy.factors.discrete import TabularCPD

    found = evidence(case, net, model)
    before, after = calibrate(tables(model), {}), calibrate(tables(model), found)
    moved = {c: abs(after.posterior(c)[0] - before.posterior(c)[0]) for c in model.causes}
    soft = [
        TabularCPD(name, len(weights), [[w / sum(weights)] for w in weights])
        for name, weights in found.items()
    ]
    for cause in sorted(moved, key=lambda name: (-moved[name], name))[:10]:
        its = eliminating.query([cause], virtual_evidence=soft, show_progress=False).values
        assert after.posterior(cause) == pytest.approx(its.tolist(), abs=CLOSE), cause


@pytest.mark.parametrize("case", CASES)
def test_a_partial_pass_equals_a_full_one(case: str, net: Network, model: SetModel) -> None:
    """Going up from the findings alone gives what a full pass through all, in logarithms, gives."""
    found = evidence(case, net, model)
    partial = calibrate(tables(model), found)
    beliefs, log2_evidence = logarithms.beliefs(tables(model), found)
    assert partial.log2_evidence == pytest.approx(log2_evidence, abs=1e-9)
    for mine, theirs in zip(partial.beliefs, beliefs, strict=True):
        assert list(mine) == pytest.approx(list(theirs), abs=1e-12)


def skewed(states: int) -> list[list[float]]:
    """Return distributions in which one state leads, little or by far, or each halves the last."""
    halves = [2.0**-n for n in range(states)]
    rows = [[half / sum(halves) for half in halves]]
    for rest in (0.1 / (states - 1), 1e-4):
        for leader in range(states):
            sure = 1.0 - rest * (states - 1)
            rows.append([sure if s == leader else rest for s in range(states)])
    return rows


def information(meter: Meter, chances: Sequence[float]) -> tuple[float, float]:
    """Return the mutual information of state and reading by quadrature, and its error, in bits."""

    def at(x: float) -> float:
        shows = meter.likelihood(x)
        mixed = sum(p * q for p, q in zip(chances, shows, strict=True))
        pairs = zip(chances, shows, strict=True)
        return sum(p * q * log2(q / mixed) for p, q in pairs if p * q > 0.0)

    start, end = meter.span
    near = {
        x + steps * spread.sd
        for spread in meter.spreads
        for x in (spread.low, spread.high)
        for steps in (-8, -4, -2, 0, 2, 4, 8)
    }
    edges = sorted({start, end, *(x for x in near if start < x < end)})
    parts = [quad(at, a, b, epsabs=1e-13, epsrel=1e-10, limit=200)[:2] for a, b in pairwise(edges)]
    return sum(value for value, _ in parts), sum(error for _, error in parts)


def test_gains_of_readings_equal_quadrature(model: SetModel) -> None:
    """What each reading of the family tells, before any finding and for skewed states, in bits."""
    prior = calibrate(tables(model), {})
    readings = [check for check in model.checks.values() if check.meter and not check.at]
    assert readings
    for check in readings:
        assert check.meter is not None
        for chances in (prior.posterior(check.looks_at), *skewed(len(check.meter.spreads))):
            exact, error = information(check.meter, chances)
            assert error < BITS / 100.0, check.id
            gain = information_gain(chances, check.channel)
            assert gain == pytest.approx(exact, abs=BITS), (check.id, chances)


def shown(check: CheckText, states: Sequence[str]) -> set[str]:
    """Return the states in which a symptom is there rather than not."""
    yes = list(check.outcomes).index("yes")
    likely = {state: row[yes] for state, row in zip(states, check.channel.rows, strict=True)}
    return {state for state, p in likely.items() if p > max(0.5, likely[states[0]])}


def part_above(net: Network, name: str) -> Network:
    """Return the network of all that stands above one variable, causes included."""
    needed: dict[str, None] = {}
    for other in [name, *reversed(net.nodes)]:
        if other == name or other in needed:
            needed |= dict.fromkeys((other, *net.nodes[other].parents))
    return network(node for node in net.nodes.values() if node.name in needed)


def test_single_cut_sets_equal_an_exhaustive_search(net: Network, model: SetModel) -> None:
    """Each cause alone, in each of its ways: it is named for every symptom it brings about."""
    found: Mapping[str, set[tuple[str, str]]] = {name: set() for name in model.cut_sets}
    causes = oracles.causes_of(net)
    for name in causes:
        for number, way in enumerate(net.nodes[name].states[1:], start=1):
            state = oracles.follow(net, causes, {name: number})
            for symptom, events in found.items():
                looks_at = net.nodes[model.checks[symptom].looks_at]
                wanted = shown(model.checks[symptom], looks_at.states)
                if looks_at.states[state[looks_at.name]] in wanted:
                    events.add((name, way))
    named = {
        symptom: {c[0] for c in sets if len(c) == 1} for symptom, sets in model.cut_sets.items()
    }
    assert len(named) >= 35
    assert named == found


def test_pairs_of_cut_sets_equal_an_exhaustive_search(net: Network, model: SetModel) -> None:
    """The two symptoms with the fewest variables above them that take pairs: every pair tried."""
    above = {
        symptom: part_above(net, model.checks[symptom].looks_at)
        for symptom, sets in model.cut_sets.items()
        if any(len(events) == 2 for events in sets)
    }
    for symptom in sorted(above, key=lambda name: (len(above[name].nodes), name))[:2]:
        check = model.checks[symptom]
        wanted = shown(check, net.nodes[check.looks_at].states)
        exact = oracles.minimal_cut_sets(above[symptom], check.looks_at, wanted, 2)
        assert {frozenset(events) for events in model.cut_sets[symptom]} == exact, symptom
