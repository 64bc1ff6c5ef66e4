import itertools
from collections.abc import Sequence
from math import fsum, prod

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.explaining import explanations
from engine.diagnosis.advising.steps import by_minutes
from engine.diagnosis.case import Case, Kit, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated, forget_calibrations, likelihoods
from engine.diagnosis.making.building import build_network
from engine.diagnosis.model import SetModel
from tests import oracles
from tests.diagnosis.conftest import CaseOf, Edit, Edited, small_library

NOTHING = Kit(frozenset(), "on")
DIM = {"supply.dark": "yes", "supply.rail-volts": "9 V"}

# A check that tells exactly what another one tells, and comes before it in the order of ids.
TWIN = (
    "blocks/supply.yaml",
    "  rail-volts:\n",
    "  bell:\n    kind: question\n    title: The bell is weak\n    asks: Is the bell weak?\n"
    "    looks-at: rail\n    yes: {right: 0.02, low: 0.2, absent: 0.97}\n    right: It rings.\n"
    "    minutes: 0.5\n    source: common practice\n  rail-volts:\n",
)


def falls(values: Sequence[float]) -> bool:
    """Whether values never rise, rounding apart."""
    return all(a >= b - 1e-9 for a, b in itertools.pairwise(values))


def test_causes_come_likeliest_first(beacon: SetModel, case_of: CaseOf) -> None:
    """All of them, with the chances of their ways adding up."""
    causes = step(beacon, case_of(beacon, DIM)).causes
    assert {cause.id for cause in causes} == set(beacon.causes)
    assert falls([cause.probability for cause in causes])
    for cause in causes:
        assert cause.probability == pytest.approx(sum(p for _, p in cause.ways), abs=1e-12)
        assert [way for way, _ in cause.ways] == list(beacon.causes[cause.id].ways)


def test_causes_that_are_equally_likely_go_by_id(edited: Edited) -> None:
    """So that the order never depends on anything else."""
    twin = (
        "blocks/supply.yaml",
        "  fuse-joint:\n",
        "  a-joint:\n    title: Another joint\n    kind: fault\n    part: joint\n    mode: dry\n"
        "    count: 2\n    source: bench-book\n    makes: {rail: absent}\n"
        "    harmed-by: {drop: 0.1}\n    act: Resolder it.\n  fuse-joint:\n",
    )
    model = edited(twin)
    order = [cause.id for cause in step(model, Case("beacon", full_kit(model))).causes]
    assert order.index("supply.fuse-joint") == order.index("supply.a-joint") + 1


@pytest.mark.parametrize("said", [{}, DIM, {"sender.weak": "faint", "past.fell": "yes"}])
def test_a_gain_is_the_entropy_that_is_expected_to_go(
    said: dict[str, str], beacon: SetModel, case_of: CaseOf
) -> None:
    """For every named check: entropy now, less the mean entropy after each outcome."""
    case = case_of(beacon, said)
    now = step(beacon, case)
    named = [check for check in now.checks if beacon.checks[check.id].meter is None]
    assert named
    for check in named:
        expected = now.entropy_bits
        for outcome in beacon.checks[check.id].outcomes:
            after = step(beacon, add_finding(case, read_answer(beacon, check.id, outcome)))
            p = 2.0 ** (after.log2_evidence - now.log2_evidence)
            expected -= p * after.entropy_bits
        assert check.gain_bits == pytest.approx(expected, abs=1e-9), check.id


def test_checks_come_in_falling_gain(beacon: SetModel, case_of: CaseOf) -> None:
    """With what each costs and needs."""
    checks = step(beacon, case_of(beacon, {"sender.weak": "faint"})).checks
    assert falls([check.gain_bits for check in checks])
    (power,) = [check for check in checks if check.id == "sender.power"]
    assert (power.minutes, power.needs) == (3, ("power-meter", "dummy-load"))
    assert power.bits_per_min == power.gain_bits / 3


def test_checks_that_tell_the_same_go_by_id(edited: Edited) -> None:
    """Gains equal on paper are equal here."""
    model = edited(TWIN)
    order = [check.id for check in step(model, Case("beacon", full_kit(model))).checks]
    assert order.index("supply.dark") == order.index("supply.bell") + 1


def test_per_minute_the_quicker_of_two_comes_first(edited: Edited, case_of: CaseOf) -> None:
    """The other order divides by the minutes, with the same ties."""
    model = edited(TWIN)
    checks = by_minutes(step(model, case_of(model, {"sender.weak": "nothing"})))
    assert falls([check.bits_per_min for check in checks])
    order = [check.id for check in checks]
    assert order.index("supply.bell") < order.index("supply.dark")


def test_only_what_the_kit_allows_is_advised(beacon: SetModel, case_of: CaseOf) -> None:
    """And nothing twice, not even what could not be checked."""
    by_hand = {"past.fell", "sender.weak", "supply.dark"}
    assert {check.id for check in step(beacon, case_of(beacon, {}, NOTHING)).checks} == by_hand
    tried = {"past.fell": "no", "supply.dark": "cannot-check"}
    assert {check.id for check in step(beacon, case_of(beacon, tried, NOTHING)).checks} == {
        "sender.weak"
    }


def test_the_kit_changes_no_posterior(beacon: SetModel, case_of: CaseOf) -> None:
    """A reading counts even when its instrument has been put away."""
    full, bare = (step(beacon, case_of(beacon, DIM, kit)) for kit in (None, NOTHING))
    assert full.causes == bare.causes


Counts = list[tuple[int, float]]  # how many causes are there together, and how likely that is


def causes_there(model: SetModel, case: Case, block: str, *edits: Edit) -> Counts:
    """Return how many causes of a block are there, events apart, in every possible world."""
    library = small_library(*edits)
    net = build_network(library, library.families["beacon"])
    rows = oracles.joint(net, likelihoods(model, case.evidence()))
    total = oracles.p_evidence(rows)
    names = [c.id for c in model.causes.values() if c.block == block and c.kind != "event"]
    return [(sum(row[name] > 0 for name in names), p / total) for row, p in rows]


def chance_of_any(counts: Counts) -> float:
    """Return the exact chance that something in the block is wrong."""
    return fsum(p for count, p in counts if count)


SEEN = {
    "nothing": {},
    "a dim set": DIM,
    "a silent set": {"supply.dark": "no", "sender.weak": "nothing", "sender.power": "20 mW"},
    "a dead rail": {"supply.rail-volts": "0.1 V", "past.fell": "yes"},
    "a sound transistor": {"sender.weak": "nothing", "sender.transistor-junctions": "yes"},
}


@pytest.mark.parametrize("said", SEEN.values(), ids=SEEN)
def test_a_block_is_never_less_likely_than_that_something_in_it_is_wrong(
    said: dict[str, str], beacon: SetModel, case_of: CaseOf
) -> None:
    """What is shown is the mean number of its causes that are there, at most 1."""
    case = case_of(beacon, said)
    for block, shown in step(beacon, case).blocks.items():
        counts = causes_there(beacon, case, block)
        assert shown >= chance_of_any(counts) - 1e-12, block  # rounding of a few hundred sums
        mean = fsum(count * p for count, p in counts)
        assert shown == pytest.approx(min(mean, 1.0), abs=1e-12), block


def test_a_block_is_never_more_than_sure(beacon: SetModel, case_of: CaseOf) -> None:
    """With a dead rail more than one cause is there on average; no chance is above 1."""
    case = case_of(beacon, SEEN["a dead rail"])
    assert fsum(count * p for count, p in causes_there(beacon, case, "supply")) > 1.0
    assert step(beacon, case).blocks["supply"] == 1.0


# A supply in which only the battery can fail; beside it, what is not listed has a prior of 1e-11.
ONE_CAUSE = (
    (
        "blocks/supply.yaml",
        "  fuse-joint:\n    title: Dry joint at the fuse holder\n    kind: fault\n    part: joint\n"
        "    mode: dry\n    count: 2\n    source: bench-book\n    makes: {rail: absent}\n"
        "    harmed-by: {drop: 0.1}\n    act: Resolder it.\n    cautions: [discharge]\n",
        "",
    ),
    ("blocks/supply.yaml", "about: What feeds the set.", "about: It feeds.\nunlisted: 0.000000001"),
)


@pytest.mark.parametrize("said", SEEN.values(), ids=SEEN)
def test_a_block_with_one_cause_is_as_likely_as_that_cause(
    said: dict[str, str], edited: Edited, case_of: CaseOf
) -> None:
    """Then the chance shown is the exact one."""
    model = edited(*ONE_CAUSE)
    case = case_of(model, said)
    exact = chance_of_any(causes_there(model, case, "supply", *ONE_CAUSE))
    assert step(model, case).blocks["supply"] == pytest.approx(exact, abs=1e-10)


@pytest.mark.parametrize("said", [{}, DIM, {"sender.weak": "loud", "sender.power": "3.8 W"}])
def test_all_fine_is_the_explanation_without_a_cause(
    said: dict[str, str], beacon: SetModel, case_of: CaseOf
) -> None:
    """Worked out in closed form and found among the joint explanations."""
    case = case_of(beacon, said)
    (empty,) = [one for one in explanations(beacon, case, 5000) if not one.causes]
    assert step(beacon, case).p_all_fine == pytest.approx(empty.probability, rel=1e-9)


def test_without_findings_all_fine_is_the_product_of_the_priors(beacon: SetModel) -> None:
    """Each cause absent by itself, and the joint not harmed, as nothing happened."""
    fine = step(beacon, Case("beacon", NOTHING)).p_all_fine
    at_rest = calibrated(beacon, ())
    independent = [name for name in beacon.causes if name not in ("supply.fuse-joint", "past.drop")]
    expected = prod(at_rest.posterior(name)[0] for name in independent)
    joint = 1.0 - at_rest.posterior("supply.fuse-joint")[0]
    unharmed = 1.0 - (joint - 0.05 * 0.1) / (1.0 - 0.05 * 0.1)  # P(joint) = p + (1 - p) 0.005
    assert fine == pytest.approx(expected * 0.95 * unharmed, rel=1e-9)


GOOD = {
    "supply.dark": "no",
    "sender.weak": "loud",
    "sender.power": "3.8 W",
    "supply.rail-volts": "13.1 V",
    "past.fell": "no",
}
ABSENT = {
    "sender.weak": "nothing",
    "sender.power": "0.05 W",
    "supply.dark": "no",
    "supply.rail-volts": "13 V",
    "sender.transistor-junctions": "yes",
}


@pytest.mark.parametrize(
    ("kind", "said", "causes"),
    [
        ("measure", {"supply.dark": "yes"}, []),
        ("act", ABSENT, ["sender.preset"]),
        ("nothing-wrong", GOOD, []),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_the_verdict(
    kind: str, said: dict[str, str], causes: list[str], beacon: SetModel, case_of: CaseOf
) -> None:
    """When to stop and act, and when to go on."""
    verdict = step(beacon, case_of(beacon, said)).verdict
    assert (verdict.kind, list(verdict.causes)) == (kind, causes)


def test_without_a_check_in_the_kit_there_is_none_left(beacon: SetModel, case_of: CaseOf) -> None:
    """Then the likeliest, and all at least half as likely, are named; what happened is not.

    By enumeration: battery 47.5 %, drop 40.7 %, joint 39.4 %, and 3.9 % for the next.
    """
    said = {"supply.dark": "yes", "sender.weak": "nothing", "past.fell": "cannot-check"}
    answer = step(beacon, case_of(beacon, said, NOTHING))
    assert answer.checks == ()
    assert answer.verdict.kind == "no-check-left"
    assert answer.verdict.causes == ("supply.flat-battery", "supply.fuse-joint")


def test_findings_that_fit_nothing_known_are_said_to(edited: Edited, case_of: CaseOf) -> None:
    """What fits best is then the cause that stands for everything not listed."""
    look = (
        "blocks/sender.yaml",
        "  power:\n    kind: reading\n",
        "  preset-look:\n    kind: look\n    title: Seal of the preset\n"
        "    asks: Is the seal of the preset whole?\n    looks-at: preset\n"
        "    yes: {fine: 0.999, present: 0.001}\n    right: Whole.\n    minutes: 1\n"
        "    lid: 'off'\n    source: common practice\n  power:\n    kind: reading\n",
    )
    much = ("blocks/sender.yaml", "about: Makes the carrier.", "about: It sends.\nunlisted: 0.5")
    model = edited(look, much)
    said = {**ABSENT, "sender.preset-look": "yes"}
    verdict = step(model, case_of(model, said)).verdict
    assert (verdict.kind, verdict.causes) == ("not-in-knowledge", ("sender.unlisted-output",))


def test_a_sure_event_is_nothing_to_act_on(edited: Edited, case_of: CaseOf) -> None:
    """What happened to a set is no cause one can repair."""
    model = edited(("blocks/past.yaml", "fine: 0.05, present: 0.7", "fine: 0.0001, present: 0.7"))
    answer = step(model, case_of(model, {"past.fell": "yes"}))
    assert answer.causes[0].id == "past.drop"
    assert answer.causes[0].probability > 0.99
    assert answer.verdict.kind == "measure"


def test_a_clash_is_set_aside_and_the_rest_worked_out(certain: SetModel, case_of: CaseOf) -> None:
    """The verdict says so; the step is that of the findings that can be true together."""
    said = {"supply.dark": "yes", "past.fell": "yes", "sender.weak": "loud"}
    answer = step(certain, case_of(certain, said))
    assert answer.verdict.kind == "clash"
    assert [finding.check for finding in answer.clash] == ["supply.dark", "sender.weak"]
    assert answer.set_aside == answer.clash
    rest = step(certain, case_of(certain, {"past.fell": "yes"}))
    assert answer.causes == rest.causes
    assert answer.log2_evidence == rest.log2_evidence
    asked = {check.id for check in answer.checks}
    assert asked.isdisjoint(said)


def test_the_same_findings_always_give_the_same_step(beacon: SetModel, case_of: CaseOf) -> None:
    """From a cold start too."""
    first = step(beacon, case_of(beacon, DIM))
    forget_calibrations()
    assert step(beacon, case_of(beacon, DIM)) == first


def test_the_order_of_findings_changes_nothing(beacon: SetModel, case_of: CaseOf) -> None:
    """Causes and gains are the same up to rounding."""
    turned = dict(reversed(DIM.items()))
    one, other = (step(beacon, case_of(beacon, said)) for said in (DIM, turned))
    assert [cause.id for cause in one.causes] == [cause.id for cause in other.causes]
    assert [c.probability for c in one.causes] == pytest.approx(
        [c.probability for c in other.causes], abs=1e-12
    )
    assert [c.id for c in one.checks] == [c.id for c in other.checks]


def test_a_shortlist_holds_the_best_by_gain_and_by_minute(model: SetModel) -> None:
    """Leaving out what cannot be among the best changes nothing about the best."""
    case = Case(
        model.family.id, full_kit(model), (read_answer(model, "operating.reach-short", "yes"),)
    )
    whole, short = step(model, case), step(model, case, 12)
    assert short.checks[:12] == whole.checks[:12]
    assert by_minutes(short)[:12] == by_minutes(whole)[:12]
    assert len(short.checks) < len(whole.checks)
    assert short.causes == whole.causes
