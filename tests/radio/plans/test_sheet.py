"""A plan worked out as rows and as tables."""

from dataclasses import replace

import pytest

from engine.radio.plans.plan import Plan
from engine.radio.plans.sheet import plan_sheet
from engine.radio.plans.tables import plan_tables

CHANNEL_HEAD = ("ch", "MHz", "N", "VCO", "LO", "transmit", "image")


@pytest.mark.parametrize("name", ["P1", "P2", "P3", "P4", "P5", "P6", "P7"])
def test_every_mode_of_every_plan_fits(name: str, plans: dict[str, Plan]) -> None:
    """Forty channels, as many cells in each row as in the head."""
    for mode in plans[name].modes:
        tables = plan_tables(plan_sheet(plans[name], mode))
        assert [len(table.rows) for table in tables[:1]] == [40]
        assert all(len(row) == len(table.head) for table in tables for row in table.rows)


def test_channels_of_one_count(plans: dict[str, Plan]) -> None:
    """Decimals stand below one another."""
    channels = plan_tables(plan_sheet(plans["P1"], "am"))[0]
    assert channels.head == CHANNEL_HEAD
    assert channels.rows[0] == ("1", "26.965", "330", "17.18", "37.66", "26.965", "48.355")
    assert channels.rows[39] == ("40", "27.405", "286", "17.62", "38.10", "27.405", "48.795")


def test_channels_of_two_counts(plans: dict[str, Plan]) -> None:
    """Where transmit counts otherwise, both counts and both VCO frequencies stand there."""
    channels = plan_tables(plan_sheet(plans["P2"], "fm"))[0]
    assert channels.head[2:6] == ("N rx", "N tx", "VCO rx", "VCO tx")
    assert channels.rows[21][2:6] == ("1258", "1349", "16.53", "13.6125")


def test_points_show_each_crystal(plans: dict[str, Plan]) -> None:
    """Frequencies on the first and last channel, then Hz a ppm of each crystal."""
    points = {row[0]: row[1:] for row in plan_tables(plan_sheet(plans["P5"], "fm"))[2].rows}
    assert points["Carrier sent"] == ("27.60125", "27.99125", "+0.91", "+15.996", "+10.695")
    assert points["Middle of the receiver"] == ("27.60125", "27.99125", "+11.15", "+15.996", "")
    assert points["Divider input"] == ("0.91", "1.3", "+0.91", "", "")


def test_only_crystals_of_the_mode_are_listed(plans: dict[str, Plan]) -> None:
    """In lower sideband the crystals that took over stand in the head, the others do not."""
    points = plan_tables(plan_sheet(plans["P4"], "lsb"))[2]
    assert points.head == ("point", "ch 1", "ch 40", "reference", "loop-lower", "carrier-lower")
    assert "Second local oscillator" not in {row[0] for row in points.rows}


def test_lines_and_what_is_wired(plans: dict[str, Plan]) -> None:
    """The states of channel 1, and what never changes."""
    lines = plan_tables(plan_sheet(plans["P1"], "am"))[1]
    assert lines.rows[0] == ("1", "330", "0", "1", "0", "1", "0", "0", "1", "0", "1")
    assert lines.note == "An open line reads 0. Wired for good: p7 to 0, p8 to 1."
    assert plan_tables(plan_sheet(plans["P2"], "am"))[1].head[:2] == ("ch", "code")


def test_what_a_stuck_line_does(plans: dict[str, Plan]) -> None:
    """How many are wrong, by how much, how many find no lock, and which."""
    up_mixed = plan_tables(plan_sheet(plans["P1"], "am"))[3].rows
    assert up_mixed[0] == ("p0", "0", "19", "+10", "0", "all on which it should be 1")
    assert up_mixed[8] == ("p4", "0", "15", "+160", "0", "10 to 22, 39, 40")
    mixing = plan_tables(plan_sheet(plans["P5"], "fm"))[3].rows
    assert mixing[11] == ("p5", "1", "5", "+320", "3", "1 to 5, 38 to 40")
    coded = plan_tables(plan_sheet(plans["P2"], "am"))[3].rows
    assert coded[0][3] == "-30, -10"
    assert coded[2][3] == "-40 to -20"


def test_a_plan_without_lines_has_two_tables(plans: dict[str, Plan]) -> None:
    """What is not known is not shown."""
    tables = plan_tables(plan_sheet(replace(plans["P5"], lines=None), "fm"))
    assert [table.title for table in tables] == ["Channels", "Test points"]
