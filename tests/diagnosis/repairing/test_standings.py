"""How the causes stood at the complaint, before each repair, and now."""

from dataclasses import replace

from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case, Repair, add_finding, full_kit, repaired
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.standings import standings
from tests.diagnosis.conftest import CaseOf

PRESET, TRANSISTOR = (
    Repair("sender.preset", "adjusted"),
    Repair("sender.output-transistor", "replaced"),
)
WEAK = {"sender.weak": "nothing", "supply.rail-volts": "13 V", "sender.power": "20 mW"}


def test_each_standing_is_the_step_of_that_case(beacon: SetModel, case_of: CaseOf) -> None:
    """The complaint, both repairs and now, each with the chances of its own step."""
    first = case_of(beacon, WEAK)
    complaint = replace(first, findings=first.findings[:1])
    again = add_finding(repaired(first, PRESET), read_answer(beacon, "sender.power", "20 mW"))
    cured = add_finding(repaired(again, TRANSISTOR), read_answer(beacon, "sender.power", "3.8 W"))
    found = standings(beacon, cured)
    assert [(each.point, each.repair) for each in found] == [
        ("complaint", None),
        ("repair", PRESET),
        ("repair", TRANSISTOR),
        ("now", None),
    ]
    for each, then in zip(found, (complaint, first, again, cured), strict=True):
        assert each.causes == step(beacon, then).causes


def test_what_adds_nothing_is_left_out(beacon: SetModel, case_of: CaseOf) -> None:
    """Nothing found: now alone; only symptoms: now alone; no symptom: no complaint."""
    empty = Case("beacon", full_kit(beacon))
    told = case_of(beacon, {"sender.weak": "nothing"})
    read = case_of(beacon, {"sender.power": "20 mW"})
    points = [[each.point for each in standings(beacon, case)] for case in (empty, told, read)]
    assert points == [["now"], ["now"], ["now"]]
    mended = repaired(empty, PRESET)
    assert [each.point for each in standings(beacon, mended)] == ["now"]
    assert [each.point for each in standings(beacon, repaired(told, PRESET))] == ["repair", "now"]
