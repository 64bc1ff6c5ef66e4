"""Printed charts: misprints are named, and nothing else is."""

from fractions import Fraction

import pytest

from engine.errors import ChartError
from engine.radio.plans.chart import Slip, read_chart, slips
from engine.radio.plans.plan import Plan
from engine.radio.plans.sheet import PlanSheet, plan_sheet
from tests.radio.plans.conftest import DATA

PRINTED = (DATA / "p1-printed-chart.csv").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def sheet(plans: dict[str, Plan]) -> PlanSheet:
    """Return the up-mixed plan, worked out."""
    return plan_sheet(plans["P1"], "am")


def found(text: str, sheet: PlanSheet) -> tuple[Slip, ...]:
    """Return the slips of a chart given as text."""
    return slips(sheet, read_chart("chart.csv", text, sheet))


def test_known_misprints_are_found_and_no_others(sheet: PlanSheet) -> None:
    """LO 0.01 high on 31 to 39, 38.00 on 40, 27.005 on 20; all counts and 360 states are right."""
    assert [(each.column, each.channels, each.by) for each in found(PRINTED, sheet)] == [
        ("frequency", (20,), Fraction("-0.2")),
        ("lo", tuple(range(31, 40)), Fraction("0.01")),
        ("lo", (40,), Fraction("-0.1")),
    ]


def test_what_is_printed_and_what_is_right(sheet: PlanSheet) -> None:
    """38.02 to 38.10 should be 38.01 to 38.09."""
    run = found(PRINTED, sheet)[1]
    assert (run.printed[0], run.printed[-1]) == ("38.02", "38.10")
    assert run.right == tuple(Fraction(3801 + n, 100) for n in range(9))


def test_the_right_chart_has_no_slip(sheet: PlanSheet) -> None:
    """A chart of the plan's own figures is right in every column."""
    lines = ["channel,frequency,n,n transmit,vco,VCO_transmit,lo,transmit,image,p0,p8"]
    for row in sheet.channels:
        hz = (row.carrier_hz, row.lo_hz, row.transmit_hz, row.image_hz)
        carrier, lo, sent, other = (float(each / 1_000_000) for each in hz)
        tuned = float(row.vco_receive_hz / 1_000_000)
        n, states = row.n_receive, (row.lines["p0"], row.lines["p8"])
        cells = (row.channel, carrier, n, n, tuned, tuned, lo, sent, other, *states)
        lines.append(",".join(map(str, cells)))
    assert found("\n".join(lines), sheet) == ()


def test_a_rounded_figure_is_right(sheet: PlanSheet) -> None:
    """37.7 is 37.66 to one decimal; beside a figure of two decimals it is wrong."""
    assert found("channel,lo\n1,37.7\n", sheet) == ()
    (slip,) = found("channel,lo\n1,37.7\n2,37.67\n", sheet)
    assert (slip.channels, slip.by) == ((1,), Fraction("0.04"))


def test_lines_are_compared_too(sheet: PlanSheet) -> None:
    """Neighbours with the same slip are one; empty cells and lines say nothing."""
    text = "channel,p0,p1\n1,1,1\n\n2,1,\n3,1,1\n4,0,0\n"
    assert [(each.column, each.channels, each.by) for each in found(text, sheet)] == [
        ("p0", (1,), 1),
        ("p0", (3,), 1),
        ("p1", (3,), 1),
        ("p1", (4,), -1),
    ]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "",
            "chart.csv:1: (head): found no 'channel', expected a column 'channel'\n"
            "  Begin with the names of the columns, such as channel,frequency,n,vco,lo.",
        ),
        (
            "channel,vc0,n,n\n1,17.18,330,330\n",
            "chart.csv:1: n: found it twice, expected each column once\n"
            "  Take one out.\n"
            "chart.csv:1: n: found it twice, expected each column once\n"
            "  Take one out.\n"
            "chart.csv:1: vc0: found 'vc0', expected a known column\n"
            "  Did you mean 'vco'?",
        ),
        (
            "channel,n\n41,330\n2,32g\n3\n",
            "chart.csv:2: channel: found '41', expected a channel of the plan\n"
            "  The plan has 40 channels.\n"
            "chart.csv:3: n: found '32g', expected a number, or nothing\n"
            "  Write frequencies in MHz with a point, counts and lines as whole numbers.\n"
            "chart.csv:4: (row): found 1 cells, expected 2 cells\n"
            "  Leave a cell empty where nothing is printed, but keep its comma.",
        ),
    ],
    ids=["empty", "head", "rows"],
)
def test_what_cannot_be_read_is_told_at_once(text: str, told: str, sheet: PlanSheet) -> None:
    """Every problem has its row and column."""
    with pytest.raises(ChartError) as caught:
        read_chart("chart.csv", text, sheet)
    assert str(caught.value) == told
