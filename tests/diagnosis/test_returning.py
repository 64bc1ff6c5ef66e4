"""A set that was here before: its priors by hand, and against a network built anew."""

from dataclasses import replace
from math import exp, log
from pathlib import Path
from random import Random

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case, Finding, full_kit
from engine.diagnosis.evidence import calibrated, likelihoods
from engine.diagnosis.making.building import build_network
from engine.diagnosis.model import SetModel
from engine.diagnosis.returning import (
    MOST_EVENTS,
    History,
    Visit,
    event_chances,
    returned,
    returned_prior,
    returned_priors,
)
from engine.inference.junction import junction_tree
from engine.inference.network import network
from engine.inference.propagation import calibrate
from engine.inference.tree import JunctionTree
from engine.knowledge.library import read_library

SMALL = Path(__file__).parents[1] / "knowledge" / "small"
PRESET, TRANSISTOR, DROP, PAST = (
    "sender.preset",
    "sender.output-transistor",
    "past.drop",
    "past.past",
)


@pytest.mark.parametrize("times", [0.0, 0.4, 1.0, 2.0])
def test_the_prior_is_the_mean_of_the_gamma(times: float) -> None:
    """By hand: the rate e is multiplied by (1 + n) / (1 + e), where it was there before at all."""
    rate = -log(1.0 - 0.02)
    expected = 1.0 - exp(-rate * (1.0 + times) / (1.0 + rate)) if times else 0.02
    assert returned_prior(0.02, times) == pytest.approx(expected, rel=1e-12)


def test_the_hours_of_a_new_part_begin_when_it_was_fitted(beacon: SetModel) -> None:
    """A year of ten is a tenth of the expected failures; never more than all, nor none."""
    name, prior = TRANSISTOR, beacon.causes[TRANSISTOR].prior
    rate = -log(1.0 - prior)

    def new(*months: float) -> float:
        return returned_priors(beacon, tuple(Visit(m, (), (name,)) for m in months))[name]

    assert new(12.0) == pytest.approx(1.0 - exp(-0.1 * rate), rel=1e-12)
    assert new(240.0) == pytest.approx(prior, rel=1e-12)
    assert new(0.0) == pytest.approx(1.0 - exp(-rate / 120.0), rel=1e-12)
    assert new(60.0, 12.0) == new(12.0)


def test_the_same_fault_twice_is_likelier_each_time(beacon: SetModel) -> None:
    """Adjusted, not replaced: its hours go on."""
    once, twice = ((Visit(30.0, (PRESET,)),), (Visit(30.0, (PRESET,)), Visit(9.0, (PRESET,))))
    priors = [beacon.causes[PRESET].prior]
    priors += [returned_priors(beacon, each)[PRESET] for each in (once, twice)]
    assert priors == sorted(priors)
    assert priors[2] > 2.5 * priors[0]


def test_a_fault_that_came_twice_raises_what_is_behind_it(beacon: SetModel) -> None:
    """A drop that harms the lead is likelier after two broken leads, and not after a preset."""
    harmed = _harmed(beacon)
    before = calibrated(beacon, ()).posterior(PAST)[1]

    def chance(*visits: Visit) -> float:
        return event_chances(beacon, visits)[PAST][1]

    once, twice = (
        chance(Visit(9.0, (harmed,))),
        chance(Visit(9.0, (harmed,)), Visit(5.0, (harmed,))),
    )
    behind = calibrate(beacon.tree, {harmed: [0.0, *_ones(beacon, harmed)]}).posterior(PAST)[1]  # type: ignore[arg-type]
    assert before < once < twice < MOST_EVENTS
    assert once == pytest.approx(returned_prior(before, behind), rel=1e-12)
    assert twice == pytest.approx(returned_prior(before, 2.0 * behind), rel=1e-12)


def _ones(model: SetModel, cause: str) -> list[float]:
    return [1.0] * len(model.causes[cause].ways)


def _harmed(model: SetModel) -> str:
    """Return the cause that the drop makes likeliest by far."""
    after = calibrate(model.tree, {PAST: [0.0, 1.0]})  # type: ignore[arg-type]
    names = [name for name, cause in model.causes.items() if cause.kind != "event"]
    return max(names, key=lambda name: (1 - after.posterior(name)[0]) / model.causes[name].prior)


def anew(model: SetModel, cause: str, history: History) -> JunctionTree:
    """Return the network with the tables of a cause and of the past written anew, compiled."""
    library = read_library(SMALL)
    net = build_network(library.of("beacon"), library.families["beacon"])
    scale = returned_priors(model, history)[cause] / model.causes[cause].prior
    before = net.nodes[cause].table
    ways = {key: p * scale for key, p in before.items() if key[-1]}
    past = {(state,): p for state, p in enumerate(event_chances(model, history)[PAST])}
    tables = {cause: {(0,): 1.0 - sum(ways.values()), **ways}, PAST: past}
    assert not net.nodes[cause].parents
    nodes = [
        replace(node, table=tables[node.name]) if node.name in tables else node
        for node in net.nodes.values()
    ]
    return junction_tree(network(nodes))


@pytest.mark.parametrize("seed", range(4))
def test_it_is_the_network_built_with_the_new_chances(beacon: SetModel, seed: int) -> None:
    """Every posterior and P(findings), for evidence by chance."""
    history = (Visit(12.0, (PRESET, _harmed(beacon))), Visit(3.0, (PRESET,)))
    told = (Visit(12.0, (PRESET,), (PRESET,)), Visit(3.0, (PRESET,)))
    assert event_chances(beacon, history) != event_chances(beacon, told)
    dice, theirs = Random(seed), anew(beacon, PRESET, told)
    ours = returned(beacon, told).tree
    for _ in range(5):
        held = {
            name: [dice.random() for _ in range(home.states)]
            for name, home in theirs.homes.items()
            if dice.random() < 0.5
        }
        one, other = calibrate(ours, held), calibrate(theirs, held)  # type: ignore[arg-type]
        assert one.log2_evidence == pytest.approx(other.log2_evidence, abs=1e-12)
        for name in theirs.homes:
            assert one.posterior(name) == pytest.approx(other.posterior(name), abs=1e-12), name


@pytest.mark.parametrize("seed", range(4))
def test_all_fine_is_what_the_tables_say(beacon: SetModel, seed: int) -> None:
    """P(nothing is wrong | findings) as a pass with every cause held fine gives it."""
    dice = Random(seed)
    model = returned(
        beacon, (Visit(12.0, (PRESET, TRANSISTOR), (TRANSISTOR,)), Visit(3.0, (PRESET,)))
    )
    named = [c for c in model.checks.values() if c.outcomes and c.looks_at in model.signals]
    found = tuple(
        Finding(check.id, dice.choice(list(check.outcomes)), None, "")
        for check in dice.sample(named, 2)
    )
    held = dict(likelihoods(model, found))
    together = calibrate(model.tree, held).log2_evidence  # type: ignore[arg-type]
    for name, cause in model.causes.items():
        fine = [1.0, *[0.0] * len(cause.ways)]
        held[name] = [a * b for a, b in zip(held.get(name, fine), fine, strict=True)]
    fine_too = calibrate(model.tree, held).log2_evidence  # type: ignore[arg-type]
    answer = step(model, Case("beacon", full_kit(model), found))
    assert answer.p_all_fine == pytest.approx(2.0 ** (fine_too - together), rel=1e-9)


def test_causes_carry_their_new_priors(beacon: SetModel) -> None:
    """Every prior of the model is what its tables give before anything is found."""
    model = returned(beacon, (Visit(12.0, (PRESET,)),))
    rest = calibrated(model, ())
    for name, cause in model.causes.items():
        assert cause.prior == pytest.approx(1.0 - rest.posterior(name)[0], abs=1e-12), name
    assert model.causes[PRESET].prior > beacon.causes[PRESET].prior


def test_a_past_that_says_nothing_changes_nothing(beacon: SetModel) -> None:
    """No visit, one where nothing was confirmed, and causes this set has not."""
    assert returned(beacon, ()) is beacon
    assert returned(beacon, (Visit(12.0),)) is beacon
    assert returned(beacon, (Visit(12.0, ("x.y",), ("x.z",)),)) is beacon
    history = (Visit(12.0, (PRESET,)),)
    assert returned(beacon, history) is returned(beacon, history)
