from dataclasses import replace

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.explaining import explanations, why
from engine.diagnosis.advising.foresight import SHOWN, OutcomeEffect, tells_apart, what_if
from engine.diagnosis.advising.steps import RankedCause
from engine.diagnosis.case import add_finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from tests.diagnosis.conftest import CaseOf

SAID = {"sender.weak": "faint", "past.fell": "no"}
OPEN = [
    "supply.dark",
    "supply.rail-volts",
    "sender.power",
    "sender.transistor-junctions",
]


@pytest.mark.parametrize("check", OPEN)
def test_outcomes_mix_to_what_is_known_now(check: str, beacon: SetModel, case_of: CaseOf) -> None:
    """No check is expected to move a posterior: only its outcome does."""
    case = case_of(beacon, SAID)
    effects = what_if(beacon, case, check)
    assert sum(effect.probability for effect in effects) == pytest.approx(1.0, abs=1e-9)
    assert len(beacon.causes) <= SHOWN  # so that every cause is in every effect
    now = {cause.id: cause.probability for cause in step(beacon, case).causes}
    for cause, p in now.items():
        mixed = sum(effect.probability * dict(effect.causes)[cause] for effect in effects)
        assert mixed == pytest.approx(p, abs=1e-9), cause


@pytest.mark.parametrize("check", ["supply.dark", "sender.transistor-junctions"])
def test_what_is_foreseen_comes_true(check: str, beacon: SetModel, case_of: CaseOf) -> None:
    """After an outcome the causes are as it was said, and it was as likely as it was said."""
    case = case_of(beacon, SAID)
    before = step(beacon, case)
    for effect in what_if(beacon, case, check):
        assert effect.outcome is not None
        after = step(beacon, add_finding(case, read_answer(beacon, check, effect.outcome)))
        p = 2.0 ** (after.log2_evidence - before.log2_evidence)
        assert effect.probability == pytest.approx(p, abs=1e-9)
        then = {cause.id: cause.probability for cause in after.causes}
        for cause, chance in effect.causes:
            assert chance == pytest.approx(then[cause], abs=1e-9), cause


def test_readings_are_foreseen_by_what_each_state_gives(beacon: SetModel, case_of: CaseOf) -> None:
    """Labelled in the unit of the check; there is no outcome to enter."""
    effects = what_if(beacon, case_of(beacon, SAID), "supply.rail-volts")
    assert {effect.label for effect in effects} == {"about 13 V", "6 to 12 V", "0 to 0.5 V"}
    assert [effect.outcome for effect in effects] == [None, None, None]


def test_the_likeliest_outcome_comes_first(beacon: SetModel, case_of: CaseOf) -> None:
    """And in each of them the likeliest cause."""
    effects = what_if(beacon, case_of(beacon, SAID), "sender.power")
    chances = [effect.probability for effect in effects]
    assert chances == sorted(chances, reverse=True)
    for effect in effects:
        then = [chance for _, chance in effect.causes]
        assert then == sorted(then, reverse=True)


def test_an_outcome_that_cannot_come_is_left_out(certain: SetModel, case_of: CaseOf) -> None:
    """Loud is ruled out once the rail is known to be wrong."""
    case = case_of(certain, {"supply.dark": "yes"})
    outcomes = {effect.outcome for effect in what_if(certain, case, "sender.weak")}
    assert outcomes == {"faint", "nothing"}


def test_a_check_tells_two_causes_apart(beacon: SetModel, case_of: CaseOf) -> None:
    """The voltage decides between the battery and the sender."""
    case = case_of(beacon, {"sender.weak": "faint", "sender.power": "1.2 W"})
    effects = what_if(beacon, case, "supply.rail-volts")
    pair = tells_apart(effects, step(beacon, case).causes)
    assert pair is not None
    assert "supply.flat-battery" in pair


def test_a_cause_that_is_not_shown_is_as_likely_as_the_least_shown() -> None:
    """It need not have fallen to nothing: b, from 0.50 to at most 0.15, falls less than a."""
    now = tuple(
        RankedCause(name, "block", name, "fault", p, p, (("present", p),))
        for name, p in (("a", 0.55), ("b", 0.5), ("c", 0.1))
    )
    effect = OutcomeEffect("Yes", "yes", 1.0, (("c", 0.6), ("a", 0.15)))
    assert tells_apart((effect,), now) == ("c", "a")


def test_nothing_is_told_apart_by_nothing(beacon: SetModel, case_of: CaseOf) -> None:
    """Without effects there is no pair."""
    assert tells_apart((), step(beacon, case_of(beacon, SAID)).causes) is None


def test_an_effect_without_causes_tells_nothing_apart(beacon: SetModel, case_of: CaseOf) -> None:
    """It is passed over."""
    nothing = OutcomeEffect("Yes", "yes", 1.0, ())
    assert tells_apart((nothing,), step(beacon, case_of(beacon, SAID)).causes) is None


def test_clashing_findings_are_set_aside_in_what_is_foreseen(
    certain: SetModel, case_of: CaseOf
) -> None:
    """Foresight, reasons and explanations speak of the same findings as the step does."""
    told = {"supply.rail-volts": "12 V", "supply.dark": "yes", "sender.weak": "loud"}
    case = case_of(certain, told)
    answer = step(certain, case)
    left = replace(case, findings=tuple(f for f in case.findings if f not in answer.set_aside))
    assert answer.verdict.kind == "clash"
    assert what_if(certain, case, "sender.power") == what_if(certain, left, "sender.power")
    cause = answer.causes[0].id
    assert why(certain, case, cause) == why(certain, left, cause)
    assert explanations(certain, case, 3) == explanations(certain, left, 3)
    assert len(explanations(certain, case, 3)) == 3
