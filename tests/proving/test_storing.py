"""A sheet that went through JSON, as the page has it, proves the same."""

import json
from dataclasses import asdict

import pytest

from engine.knowledge.library import Library
from engine.proving.making import make_sheet
from engine.proving.readings import Typed, enter
from engine.proving.storing import loaded, plain
from engine.proving.verdict import prove, rules_of
from tests.conftest import FAMILIES


@pytest.mark.parametrize("family", FAMILIES)
def test_a_sheet_is_the_same_after_it_was_stored(library: Library, family: str) -> None:
    """Nothing is lost or changed on the way through JSON, whatever the set."""
    sheet = make_sheet(library, family)
    assert sheet is not None
    assert asdict(loaded(json.loads(json.dumps(plain(sheet))))) == asdict(sheet)


def test_a_stored_sheet_judges_alike(library: Library) -> None:
    """The same reading gives the same verdict with the same figures."""
    sheet = make_sheet(library, "three-crystal-fm")
    assert sheet is not None
    told = []
    for each in (sheet, loaded(json.loads(json.dumps(plain(sheet))))):
        reading = enter(each, "carrier-power", Typed("3.9 W"), {"rf-power-meter": "5 %"})
        told.append(prove(each, rules_of(each, ""), {"carrier-power": reading}))
    assert [row.verdict for row in told[0].rows] == [row.verdict for row in told[1].rows]
    assert told[0].rows[3].held == told[1].rows[3].held != ()


def test_checks_that_measure_the_same_are_there_in_some_family(library: Library) -> None:
    """What fails can be entered as a finding: each family knows the checks of most points."""
    for family in FAMILIES:
        sheet = make_sheet(library, family)
        assert sheet is not None
        blocks = library.of(family).blocks
        known = {
            f"{block}.{check}"
            for block in library.families[family].blocks
            for check in blocks[block].checks
        }
        measured = [point for point in sheet.points if point.unit]
        linked = [point for point in measured if known & set(point.same_as)]
        assert 2 * len(linked) > len(measured), family
