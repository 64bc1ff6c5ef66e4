from dataclasses import replace

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case, Kit, Repair, repaired
from engine.diagnosis.costing.weighing import Costs, weigh
from engine.diagnosis.costing.work import Look, Work
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.knowledge.library import load, read_texts
from tests.diagnosis.conftest import SMALL, CaseOf
from tests.diagnosis.making.test_cause_texts import TABLE, with_repairs

ABSENT = {"sender.power": "0.05 W", "supply.rail-volts": "13 V"}


@pytest.fixture(scope="module")
def mendable_set() -> SetModel:
    """Return the tiny set with a table of repairs."""
    return compile_family(with_repairs(), "beacon")


def _costs(model: SetModel, case: Case) -> Costs:
    costs = weigh(model, case, step(model, case))
    assert costs is not None
    return costs


def test_nothing_wrong_costs_nothing(mendable_set: SetModel, case_of: CaseOf) -> None:
    """Before anything is found wrong there is nothing to repair."""
    for said in ({}, {"sender.weak": "loud"}):
        case = case_of(mendable_set, said)
        assert weigh(mendable_set, case, step(mendable_set, case)) is None


def test_without_a_table_there_are_no_costs(beacon: SetModel, case_of: CaseOf) -> None:
    """A knowledge base need not say what repairs take."""
    case = case_of(beacon, ABSENT)
    assert weigh(beacon, case, step(beacon, case)) is None


def test_what_went_before_and_what_events_there_were_are_no_trouble(
    mendable_set: SetModel, case_of: CaseOf
) -> None:
    """That the set was dropped is past; what it harms besides is not behind the trouble."""
    case = case_of(mendable_set, {**ABSENT, "past.fell": "yes"})
    costs = _costs(mendable_set, case)
    assert costs.trouble == ("sender.output",)
    assert "supply.fuse-joint" not in [each.cause for each in costs.attempts]


def test_repairs_in_order_with_looks(mendable_set: SetModel, case_of: CaseOf) -> None:
    """No power with the rail right: the preset, quickly tried, then the transistor after a look.

    Repair of the transistor: work 30, part 5, proof 2. The look takes six minutes and sees 95 of
    100 failed ones and 5 of 100 sound ones; the lid is off already. Chances are given that there is
    trouble, which leaves 2 %.
    """
    case = case_of(mendable_set, ABSENT)
    costs = _costs(mendable_set, case)
    chances = {each.id: each.probability for each in step(mendable_set, case).causes}
    preset, transistor = costs.attempts[:2]
    assert (preset.cause, preset.minutes, preset.look) == ("sender.preset", 12.0, None)
    assert preset.chance == pytest.approx(0.95 * chances["sender.preset"], rel=0.03)
    assert (transistor.cause, transistor.minutes) == ("sender.output-transistor", 37.0)
    assert transistor.chance == pytest.approx(0.9 * 0.95 * chances[transistor.cause], rel=0.03)
    assert transistor.look is not None
    seen = (transistor.look.check, transistor.look.effort_min, transistor.look.hit)
    assert seen == ("sender.transistor-junctions", 6.0, pytest.approx(0.95))
    assert transistor.look.false_alarm == pytest.approx(0.05)
    assert "sender.transistor-junctions" in [check.check for check in costs.checks]
    assert costs.hand_over_min == 200.0


def test_a_closed_set_leaves_only_what_is_outside(mendable_set: SetModel, case_of: CaseOf) -> None:
    """With the lid on, the battery can be charged; all else is for somebody else."""
    kit = Kit(frozenset({"power-meter", "dummy-load"}), "on")
    dark = case_of(mendable_set, {"supply.rail-volts": "0.1 V"}, kit)
    assert [each.cause for each in _costs(mendable_set, dark).attempts] == ["supply.flat-battery"]
    silent = case_of(mendable_set, {"sender.power": "0.05 W", "supply.dark": "no"}, kit)
    costs = _costs(mendable_set, silent)
    inside = {name for name, cause in mendable_set.causes.items() if cause.inside}
    assert not inside & {each.cause for each in costs.attempts}


def test_the_lid_is_paid_for_until_it_is_off(mendable_set: SetModel, case_of: CaseOf) -> None:
    """The instrument table of the tiny set has no minutes for it, so they are given here."""
    lidded = replace(mendable_set, handling=replace(mendable_set.handling, lid_min=4.0))
    shut = _costs(lidded, case_of(lidded, {"sender.power": "0.05 W", "supply.dark": "no"}))
    open_ = _costs(lidded, case_of(lidded, ABSENT))
    minutes = [
        {each.cause: each.minutes for each in costs.attempts}["sender.output-transistor"]
        for costs in (shut, open_)
    ]
    assert minutes == [41.0, 37.0]


def test_what_is_to_be_proved_first_is_part_of_the_repair(case_of: CaseOf) -> None:
    """Its minutes count until it was made; where the kit cannot make it there is no repair."""
    texts = read_texts(SMALL) | {"tables/repairs.yaml": TABLE}
    act = "    act: Replace it by one of the same class.\n"
    proof = f"{act}    prove-first: [supply.rail-volts]\n"
    sender = texts["blocks/sender.yaml"].replace(act, proof)
    model = compile_family(load({**texts, "blocks/sender.yaml": sender}), "beacon")
    found = {"sender.power": "0.05 W"}
    before = {each.cause: each.minutes for each in _costs(model, case_of(model, found)).attempts}
    made = {**found, "supply.rail-volts": "13 V"}
    after = {each.cause: each.minutes for each in _costs(model, case_of(model, made)).attempts}
    assert before["sender.output-transistor"] - after["sender.output-transistor"] >= 3.0
    no_meter = case_of(model, found, Kit(frozenset({"power-meter", "dummy-load"}), "off"))
    causes = [each.cause for each in _costs(model, no_meter).attempts]
    assert "sender.output-transistor" not in causes


def test_a_check_can_only_help_but_for_its_own_minutes(
    mendable_set: SetModel, case_of: CaseOf
) -> None:
    """What follows a check is not dearer than repairing now: its answer can be ignored."""
    for said in (ABSENT, {"sender.power": "1 W"}, {"supply.rail-volts": "0.1 V"}):
        costs = _costs(mendable_set, case_of(mendable_set, said))
        for check in costs.checks:
            assert check.expected_min - check.effort_min <= costs.expected_min * 1.01


def test_a_repair_that_did_not_help_is_not_tried_again(
    mendable_set: SetModel, case_of: CaseOf
) -> None:
    """After it the trouble is found again: the cause that was put right is behind nothing."""
    case = repaired(case_of(mendable_set, ABSENT), Repair("sender.output-transistor", "replaced"))
    again = case_of(mendable_set, {"sender.power": "0.05 W"}).findings
    costs = _costs(mendable_set, replace(case, findings=again))
    chances = {each.cause: each.chance for each in costs.attempts}
    assert chances.get("sender.output-transistor", 0.0) == 0.0


@pytest.mark.parametrize(("part", "is_looked_at"), [(0.05, True), (0.3, True), (0.95, False)])
def test_a_suspect_is_looked_at_unless_it_is_nearly_sure(part: float, is_looked_at: bool) -> None:
    """A look of ten minutes before a repair of forty: not worth it at 95 %."""
    work = Work("b.c", 40.0, 1.0, Look("b.look", 10.0, 0.99, 0.02))
    trial, look = work.trial(part, 200.0)
    assert (look is not None) == is_looked_at
    if look is not None:
        assert trial.p == pytest.approx(part * 0.99)
        assert trial.cost == pytest.approx(10.0 + 0.02 * 40.0)
        assert trial.found_cost == pytest.approx(part * 0.97 * 40.0)
    else:
        assert (trial.p, trial.cost, trial.found_cost) == (part, 40.0, 0.0)


def test_a_blind_look_is_not_made() -> None:
    """One that overlooks half of the faults costs the last resort too often."""
    work = Work("b.c", 40.0, 1.0, Look("b.look", 10.0, 0.5, 0.02))
    assert work.trial(0.5, 1000.0)[1] is None
