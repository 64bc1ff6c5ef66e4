"""Priors sharpened by one's own counts, held against a network built anew with the new priors."""

from dataclasses import replace
from functools import cache
from math import log2
from pathlib import Path
from random import Random

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.conflict import conflict_bits
from engine.diagnosis.case import Case, Finding, full_kit
from engine.diagnosis.evidence import calibrated, likelihood, likelihoods
from engine.diagnosis.making.building import build_network
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.diagnosis.sharpening import (
    EQUIVALENT_SETS,
    OwnCounts,
    new_priors,
    own_counts,
    sharpened,
    sharpened_prior,
)
from engine.diagnosis.storage import dump_model
from engine.inference.junction import junction_tree
from engine.inference.network import Network, Node, network
from engine.inference.propagation import JunctionTree, calibrate, log2_evidence
from engine.knowledge.library import read_library

SMALL = Path(__file__).parents[1] / "knowledge" / "small"
FAMILY = "beacon"
EXACT = 1e-12


@cache
def model() -> SetModel:
    """Return the tiny invented set."""
    return compile_family(read_library(SMALL), FAMILY)


@cache
def counts() -> OwnCounts:
    """Return counts of forty sets; every third cause was confirmed, some on many sets."""
    causes = [name for name, cause in model().causes.items() if cause.kind != "event"]
    found = [[each] * (1 + 4 * number) for number, each in enumerate(causes[::3])]
    ends = [*[[each] for row in found for each in row][:38], [causes[0], causes[1]]]
    return own_counts([*ends, *[[]] * (40 - len(ends))])


@cache
def anew() -> Network:
    """Return the network of the set built with the new priors in its own tables."""
    library = read_library(SMALL)
    net = build_network(library.of(FAMILY), library.families[FAMILY])
    priors = new_priors(model(), counts())
    changed = [_with_prior(net, node, priors) for node in net.nodes.values()]
    return network(changed)


@cache
def tree_anew() -> JunctionTree:
    """Return that network compiled."""
    return junction_tree(anew())


def _with_prior(net: Network, node: Node, priors: dict[str, float]) -> Node:
    """Return a cause with its odds multiplied until its prior is the new one; others as is."""
    if node.name not in priors:
        return node
    parents = [net.nodes[each].table for each in node.parents]
    low, high = 1e-9, 1e9
    for _ in range(200):
        factor = (low * high) ** 0.5
        table = _scaled(node.table, factor)
        weights = dict.fromkeys(table, 1.0)
        for key in table:
            for parent, state in zip(parents, key, strict=False):
                weights[key] *= parent.get((state,), 0.0)
        chance = sum(p * weights[key] for key, p in table.items() if key[-1])
        low, high = (factor, high) if chance < priors[node.name] else (low, factor)
    return replace(node, table=table)


def _scaled(table: dict[tuple[int, ...], float], factor: float) -> dict[tuple[int, ...], float]:
    raised = {key: p * (factor if key[-1] else 1.0) for key, p in table.items()}
    sums: dict[tuple[int, ...], float] = {}
    for key, p in raised.items():
        sums[key[:-1]] = sums.get(key[:-1], 0.0) + p
    return {key: p / sums[key[:-1]] for key, p in raised.items()}


def findings(seed: int) -> tuple[Finding, ...]:
    """Return some findings by chance, each of a named outcome of the tables' own signals."""
    dice = Random(seed)
    named = [
        check
        for check in model().checks.values()
        if check.outcomes and check.looks_at in anew().nodes
    ]
    return tuple(
        Finding(check.id, dice.choice(list(check.outcomes)), None, "")
        for check in dice.sample(named, 3)
    )


def test_an_event_harms_a_cause_of_the_tiny_set() -> None:
    """Else the rows under an event would not be looked at."""
    assert any(
        node.parents for name, node in anew().nodes.items() if name in new_priors(model(), counts())
    )


@pytest.mark.parametrize("seed", range(8))
def test_posteriors_are_those_of_a_network_built_anew(seed: int) -> None:
    """Every variable and P(findings) agree to the last digits."""
    found = findings(seed)
    ours = calibrated(sharpened(model(), counts()), found)
    theirs = calibrate(tree_anew(), likelihoods(model(), found))
    assert ours.log2_evidence == pytest.approx(theirs.log2_evidence, abs=EXACT)
    for name in anew().nodes:
        assert ours.posterior(name) == pytest.approx(theirs.posterior(name), abs=EXACT), name


@pytest.mark.parametrize("seed", range(4))
def test_conflict_and_all_fine_are_those_of_a_network_built_anew(seed: int) -> None:
    """What hangs on priors elsewhere follows: how findings clash, and that nothing is wrong."""
    found, new = findings(seed), sharpened(model(), counts())
    alone = sum(log2_evidence(tree_anew(), likelihoods(new, [each])) for each in found)
    together = log2_evidence(tree_anew(), likelihoods(new, found))
    assert conflict_bits(new, found) == pytest.approx(alone - together, abs=1e-10)
    all_fine = sum(
        log2(node.table[(0,) * (1 + len(node.parents))]) for node in anew().nodes.values()
    )
    told = sum(log2(likelihood(new, each)[0]) for each in found)
    expected = 2.0 ** (all_fine + told - together)
    answer = step(new, Case(FAMILY, full_kit(new), found))
    assert answer.p_all_fine == pytest.approx(expected, rel=1e-10)


def test_priors_are_those_of_the_formula_and_events_stay() -> None:
    """Each cause has (250 prior + times) / (250 + sets); what a set went through is as before."""
    new = sharpened(model(), counts())
    rest, times = calibrated(new, ()), dict(counts().times)
    for name, cause in model().causes.items():
        wanted = (EQUIVALENT_SETS * cause.prior + times.get(name, 0)) / (EQUIVALENT_SETS + 40)
        expected = cause.prior if cause.kind == "event" else wanted
        assert new.causes[name].prior == pytest.approx(expected, rel=EXACT)
        assert 1.0 - rest.posterior(name)[0] == pytest.approx(expected, abs=EXACT), name


def test_nothing_worked_out_before_is_taken_for_the_sharpened_set() -> None:
    """The set as it was answers as it did, before and after; the same counts are one model."""
    found, before = findings(1), calibrated(model(), findings(1)).log2_evidence
    new = sharpened(model(), counts())
    assert calibrated(new, found).log2_evidence != before
    assert calibrated(model(), found).log2_evidence == before
    assert sharpened(model(), own_counts([["x.y"]])) is not new
    assert sharpened(model(), counts()) is new
    assert new.counted_sets == 40
    assert "counted_sets" not in dump_model(new)


def test_no_set_counted_changes_nothing() -> None:
    """Without sets of one's own the priors of the knowledge hold."""
    assert sharpened(model(), own_counts([])) is model()
    assert sharpened_prior(0.02, 0, 0) == 0.02
