"""Whole runs on the tiny set: what is the same whoever works, and what the figures must hold."""

from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace

import pytest

from engine.assessing.faulty_set import faulty_set
from engine.assessing.known_wrongly import Knowledge
from engine.assessing.policies import POLICIES, TITLES
from engine.assessing.scores import scores
from engine.assessing.shards import run_all, shards
from engine.assessing.trial import Plan, Trial, reported
from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.entry import read_answer

SETS = 400


def trials(
    right: Knowledge, policy: str, faults: str = "1", report: str = "complaint", sets: int = 12
) -> list[Trial]:
    """Return the trials of so many sets, in this process."""
    plan = Plan(policy, full_kit(right.truth), report)
    with ThreadPoolExecutor(1) as pool:
        parts = shards(right, faults, plan, 1, range(sets))
        return run_all(pool, parts, lambda _done, _total: None)


def test_every_way_of_working_has_a_title() -> None:
    """One sentence each, for the table and the page."""
    assert POLICIES.keys() == TITLES.keys()


@pytest.mark.parametrize("policy", POLICIES)
def test_every_way_of_working_comes_to_an_end(right: Knowledge, policy: str) -> None:
    """No check is made twice, and each trial ends in a verdict with what was answered."""
    for trial in trials(right, policy, sets=6):
        made = [check for check, _ in trial.answers]
        assert len(made) == len(set(made))
        assert trial.verdict != ""
        assert len(trial.ranks) == trial.checks + 1


def test_two_ways_of_working_meet_the_same_sets(right: Knowledge) -> None:
    """The causes and the owner's reports are alike; only what is checked differs."""
    one, other = trials(right, "chart"), trials(right, "most-told")
    assert [trial.there for trial in one] == [trial.there for trial in other]
    assert [trial.ranks[0] for trial in one] == [trial.ranks[0] for trial in other]


def test_the_same_seed_gives_the_same_trials_on_any_workers(right: Knowledge) -> None:
    """Two processes end with what one thread ends with, in the same order."""
    plan = Plan("shipped", full_kit(right.truth))
    parts = shards(right, "some", plan, 1, range(12))
    heard: list[tuple[int, int]] = []

    def hear(done: int, total: int) -> None:
        heard.append((done, total))

    with ProcessPoolExecutor(2) as pool:
        found = run_all(pool, parts, hear)
    assert found == trials(right, "shipped", "some")
    assert heard == [(done, 12) for done in (2, 4, 6, 8, 10, 12)]


@pytest.fixture(scope="module")
def matched(frail: Knowledge) -> Sequence[Trial]:
    """Return trials in which set, answers and tool follow the same network, nothing hidden."""
    return trials(frail, "most-told", "any", "asked", SETS)


def test_chances_are_calibrated_on_matched_knowledge(matched: Sequence[Trial]) -> None:
    """In every bin with thirty told chances the 95 % interval of sets, widened by half, holds."""
    bins = [row for row in scores(matched)["reliability"] if row["told"] >= 30]
    assert len(bins) >= 6
    for row in bins:
        room = 0.75 * (row["high"] - row["low"])
        middle = (row["high"] + row["low"]) / 2.0
        assert abs(row["mean"] - middle) <= max(room, 0.02), row


def test_shares_grow_with_checks_and_stay_in_their_intervals(matched: Sequence[Trial]) -> None:
    """Who was found stays found, and each share lies between its bounds."""
    told = scores(matched)
    shares = [row["found"] for row in told["after"]]
    assert [share["at"] for share in shares] == sorted(share["at"] for share in shares)
    for figure in (told["first"], told["first_three"], told["found"], told["needless"], *shares):
        assert 0.0 <= figure["low"] <= figure["at"] <= figure["high"] <= 1.0


def test_no_trial_beats_the_floor_by_capacity(matched: Sequence[Trial]) -> None:
    """In the mean no more bits are learned than the checks made can tell."""
    floor = scores(matched)["floor"]
    assert 0.0 < floor["capacity"] <= floor["checks"]


@pytest.mark.parametrize(("way", "is_told"), [("weak", True), ("empty", False)])
def test_an_owner_tells_of_what_makes_sense_only(right: Knowledge, way: str, is_told: bool) -> None:
    """Of a set without a rail nobody says how it sends, where the question presumes one."""
    model, weak = right.truth, right.truth.checks["sender.weak"]
    wary = replace(weak, presumes=(("supply.rail", ("right", "low")),))
    model = replace(model, checks={**model.checks, weak.id: wary})
    states = {"supply.flat-battery": ["fine", "weak", "empty"].index(way)}
    bench = faulty_set(model, right.network, states, "1")
    case = reported(model, Case("beacon", full_kit(model)), bench, "asked")
    assert ("sender.weak" in {finding.check for finding in case.findings}) == is_told


def test_doubts_rank_nothing(right: Knowledge) -> None:
    """A step without them says the same of causes, checks and the verdict."""
    model = right.truth
    case = Case("beacon", full_kit(model))
    for check, said in (("supply.dark", "yes"), ("sender.weak", "loud")):
        case = add_finding(case, read_answer(model, check, said))
    with_them, without = step(model, case), step(model, case, is_doubting=False)
    assert with_them.conflict_bits != 0.0
    assert replace(with_them, doubts=(), conflict_bits=0.0) == without
