"""A case after a repair: what still holds, what may be asked again, and where the fault is then."""

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.explaining import explanations, why
from engine.diagnosis.case import Case, Repair, add_finding, repaired, withdraw
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present, what_it_touches
from tests.diagnosis.conftest import CaseOf

PRESET, TRANSISTOR = "sender.preset", "sender.output-transistor"
WEAK = {"supply.rail-volts": "13 V", "sender.weak": "nothing", "sender.power": "20 mW"}


@pytest.fixture
def guessed(beacon: SetModel, case_of: CaseOf) -> Case:
    """Return a weak set of which the preset was put right: the likeliest cause, not surely it."""
    return repaired(case_of(beacon, WEAK), Repair(PRESET, "adjusted"))


def chances(model: SetModel, case: Case) -> dict[str, float]:
    """Return how likely each cause is now."""
    return {cause.id: cause.probability for cause in step(model, case).causes}


def test_a_repair_touches_what_hangs_on_its_cause(beacon: SetModel) -> None:
    """The preset reaches the drive and the output, and not the rail that feeds them."""
    (way,) = what_it_touches(beacon, PRESET)
    assert way & beacon.signals.keys() == {"sender.drive", "sender.output"}


def test_findings_that_do_not_hang_on_it_stand(beacon: SetModel, guessed: Case) -> None:
    """Those on the output may be asked again, and the volts on the rail need not be."""
    now = present(beacon, guessed)
    assert [each.check for each in now.findings] == ["supply.rail-volts"]
    asked = {check.id for check in step(beacon, guessed).checks}
    assert {"sender.weak", "sender.power"} <= asked
    assert "supply.rail-volts" not in asked


def test_what_was_put_right_is_not_there(beacon: SetModel, guessed: Case) -> None:
    """Its chance is 0 from then on, whatever is found."""
    assert chances(beacon, guessed)[PRESET] == 0.0
    again = add_finding(guessed, read_answer(beacon, "sender.weak", "nothing"))
    assert chances(beacon, again)[PRESET] == 0.0


def test_a_repair_that_changed_nothing_is_evidence(beacon: SetModel, guessed: Case) -> None:
    """The same symptom after the repair points to the other cause; its absence clears that."""
    same = add_finding(guessed, read_answer(beacon, "sender.power", "20 mW"))
    cured = add_finding(guessed, read_answer(beacon, "sender.power", "3.8 W"))
    assert step(beacon, same).causes[0].id == TRANSISTOR
    assert chances(beacon, same)[TRANSISTOR] > 0.8
    assert chances(beacon, guessed)[TRANSISTOR] < 0.5
    assert chances(beacon, cured)[TRANSISTOR] < 0.01
    assert step(beacon, cured).p_all_fine > 0.7


def test_reasons_and_explanations_speak_of_the_set_as_it_is(
    beacon: SetModel, guessed: Case
) -> None:
    """Weights still add up to the posterior, and no explanation names what was put right."""
    case = add_finding(guessed, read_answer(beacon, "sender.power", "20 mW"))
    reasons = why(beacon, case, TRANSISTOR)
    total = reasons.prior_decibans + sum(weight for _, weight in reasons.findings)
    assert total == pytest.approx(reasons.posterior_decibans, abs=1e-9)
    joint = explanations(beacon, case, 6)
    assert TRANSISTOR in dict(joint[0].causes)
    assert all(PRESET not in dict(each.causes) for each in joint)
    assert sum(each.probability for each in joint) == pytest.approx(1.0, abs=0.05)


def test_a_finding_from_before_a_repair_can_be_withdrawn(beacon: SetModel, guessed: Case) -> None:
    """The latest of a check goes; the repair stays."""
    without = withdraw(guessed, "sender.power")
    assert [f.check for f in without.all_findings()] == ["supply.rail-volts", "sender.weak"]
    assert [each.repair.cause for each in without.past] == [PRESET]


def test_a_check_made_again_takes_the_place_of_the_one_before(
    beacon: SetModel, guessed: Case
) -> None:
    """Also where the repair cannot have changed it: no reading counts twice."""
    again = add_finding(guessed, read_answer(beacon, "supply.rail-volts", "13.1 V"))
    assert [each.said for each in present(beacon, again).findings] == ["13.1 V"]
    later = repaired(again, Repair(TRANSISTOR, "replaced"))
    assert [each.said for each in present(beacon, later).findings] == ["13.1 V"]


def test_repairs_one_after_the_other(beacon: SetModel, guessed: Case) -> None:
    """When both leading causes were put right in vain, neither is there and others lead."""
    same = add_finding(guessed, read_answer(beacon, "sender.power", "20 mW"))
    both = repaired(same, Repair(TRANSISTOR, "replaced"))
    still = add_finding(both, read_answer(beacon, "sender.power", "20 mW"))
    now = chances(beacon, still)
    assert now[PRESET] == now[TRANSISTOR] == 0.0
    assert step(beacon, still).causes[0].id == "sender.unlisted-output"
