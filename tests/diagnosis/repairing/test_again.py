"""After a repair: what had been the chance, and which checks to make again."""

from dataclasses import replace

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import proposed
from engine.diagnosis.case import Case, Repair, add_finding, repaired
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.again import (
    checks_to_repeat,
    has_cured,
    just_before,
    mended,
    repeats_first,
)
from tests.diagnosis.conftest import CaseOf

PRESET = "sender.preset"
WEAK = {"supply.rail-volts": "13 V", "sender.weak": "nothing", "sender.power": "20 mW"}


@pytest.fixture
def guessed(beacon: SetModel, case_of: CaseOf) -> Case:
    """Return a weak set of which the preset was put right."""
    return repaired(case_of(beacon, WEAK), Repair(PRESET, "adjusted"))


def chance_of(model: SetModel, case: Case, cause: str) -> float:
    """Return how likely a cause is."""
    return next(each.probability for each in step(model, case).causes if each.id == cause)


def test_a_repair_was_as_likely_right_as_its_cause(beacon: SetModel, guessed: Case) -> None:
    """Right after it both figures are the chance of the cause in the case before it."""
    (row,) = mended(beacon, guessed)
    before = chance_of(beacon, just_before(guessed, 0), PRESET)
    assert row.repair == Repair(PRESET, "adjusted")
    assert row.then == pytest.approx(before, abs=1e-9)
    assert row.now == pytest.approx(before, abs=1e-3)  # branches keep an approximation


def test_what_is_found_later_tells_whether_it_had_been_wrong(
    beacon: SetModel, guessed: Case
) -> None:
    """A cured set speaks for the repair, the same reading against it; what was known then stays."""
    (known,) = mended(beacon, guessed)
    told = {said: read_answer(beacon, "sender.power", said) for said in ("3.8 W", "20 mW")}
    ((cured,), (same,)) = (mended(beacon, add_finding(guessed, told[each])) for each in told)
    assert cured.now > 0.95
    assert same.now < 0.1
    assert cured.then == same.then == known.then


def test_a_set_is_cured_once_its_complaint_is_gone(beacon: SetModel, guessed: Case) -> None:
    """Not right after the repair, nor while the complaint stays, nor without any repair."""
    cured = add_finding(guessed, read_answer(beacon, "sender.power", "3.8 W"))
    same = add_finding(guessed, read_answer(beacon, "sender.power", "20 mW"))
    cases = (just_before(guessed, 0), guessed, same, cured)
    assert [has_cured(beacon, case, step(beacon, case)) for case in cases] == [False] * 3 + [True]


def test_without_a_repair_nothing_is_to_be_said(beacon: SetModel, guessed: Case) -> None:
    """No repair, no rows, and the order is the usual one."""
    case = just_before(guessed, 0)
    now = step(beacon, case)
    assert mended(beacon, case) == ()
    assert checks_to_repeat(case, now) == ()
    assert repeats_first(case, now) == proposed(now)


def test_what_was_found_before_comes_first_until_one_is_made_again(
    beacon: SetModel, guessed: Case
) -> None:
    """Then the usual order holds; what the repair cannot have changed is not asked again."""
    now = step(beacon, guessed)
    again = {each.before.check for each in checks_to_repeat(guessed, now)}
    rows = repeats_first(guessed, now)
    assert again == {"sender.weak", "sender.power"}
    assert {each.id for each in rows[:2]} == again
    assert sorted(each.id for each in rows) == sorted(each.id for each in now.checks)
    later = add_finding(guessed, read_answer(beacon, "sender.weak", "nothing"))
    assert repeats_first(later, step(beacon, later)) == proposed(step(beacon, later))


def test_before_a_second_repair_the_first_one_stands(beacon: SetModel, guessed: Case) -> None:
    """The case just before the second holds the first and what was found in between."""
    between = add_finding(guessed, read_answer(beacon, "sender.power", "20 mW"))
    twice = repaired(between, Repair("sender.output-transistor", "replaced"))
    assert just_before(twice, 1) == between
    assert just_before(twice, 0) == replace(between, findings=guessed.past[0].findings, past=())
