"""Visits among findings and repairs, each where it was made."""

import pytest

from engine.diagnosis.case import Case, Finding, Repair, add_finding, repaired, withdraw
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from engine.setting_up.guiding import Visit
from engine.setting_up.in_time import moved_along, with_visits
from engine.setting_up.sheet import steps
from engine.setting_up.verdict import Entry

RAIL = "regulators.rail-preset"
VOLTS = "regulators.regulated-volts"
SET = Visit(RAIL, (Entry("7.2 V", "8.0 V"),))


@pytest.fixture
def found(model: SetModel, case: Case) -> Case:
    """Return a case of two findings."""
    usual = model.checks[model.symptoms[0]].likeliest()
    case = add_finding(case, Finding(model.symptoms[0], usual, None, usual))
    return add_finding(case, read_answer(model, VOLTS, "7.2 V"))


def shape(case: Case) -> list[str]:
    """Return a case as a row of checks and repairs, in order of time."""
    rows = []
    for stretch in case.past:
        rows += [finding.check for finding in stretch.findings]
        rows.append(f"repair {stretch.repair.cause}")
    return rows + [finding.check for finding in case.findings]


@pytest.mark.parametrize(
    ("place", "expected"),
    [
        (0, [VOLTS, f"repair {RAIL}", VOLTS, "first"]),
        (1, ["first", VOLTS, f"repair {RAIL}", VOLTS]),
        (2, ["first", VOLTS, f"repair {RAIL}", VOLTS]),
        (None, ["first", VOLTS, f"repair {RAIL}", VOLTS]),
    ],
)
def test_a_visit_stands_where_it_was_made(
    model: SetModel, found: Case, place: int | None, expected: list[str]
) -> None:
    """What was found later speaks of the set as it is once the rail was set.

    A reading of the same check takes the place of the one before it, in its stretch.
    """
    first, *_ = model.symptoms
    visit = Visit(RAIL, SET.entries, findings_before=place)
    told = shape(with_visits(model, found, [visit], steps(model, found)))
    assert told == [first if name == "first" else name for name in expected]


def test_repairs_come_before_a_visit_of_the_same_place(model: SetModel, found: Case) -> None:
    """As a rule it is the repair that makes setting up necessary."""
    case = repaired(found, Repair("vco.vco-varactor", "replaced"))
    told = shape(with_visits(model, case, [SET], steps(model, case)))
    assert told[2:] == ["repair vco.vco-varactor", VOLTS, f"repair {RAIL}", VOLTS]


def test_places_move_along_with_the_case(model: SetModel, found: Case) -> None:
    """What is added later comes after them; what is taken back leaves no gap."""
    first, *_ = model.symptoms
    usual = model.checks[model.symptoms[1]].likeliest()
    second = Finding(model.symptoms[1], usual, None, usual)
    visits = [Visit(RAIL, findings_before=1), SET]

    def places(now: Case) -> list[int | None]:
        return [visit.findings_before for visit in moved_along(visits, found, now)]

    assert places(found) == [1, None]
    assert places(add_finding(found, second)) == [1, 2]
    assert places(withdraw(found, first)) == [0, None]
    assert places(withdraw(add_finding(found, second), first)) == [0, 1]
