import json
from pathlib import Path

import pytest

from engine.__main__ import main
from engine.knowledge.library import Library
from engine.radio.plans.sheet import plan_sheet
from engine.terminal.plan import plan_text

HEAD = """\
Mixing for the hill-farm beacon, invented
beacon-mixing, in FM; modes: fm, usb

The loop crystal is taken from the VCO and the rest is divided.

Channels
Frequencies in MHz. LO: first oscillator.
ch  MHz       N   VCO       LO        transmit  image
1   27.60125  91  38.29625  38.29625  27.60125  48.99125
2   27.61125  92  38.30625  38.30625  27.61125  49.00125

Programming lines
An open line reads 0. Wired for good: p7 to 0.
ch  N   p0  p1  p2  p3  p4  p5  p6  p7
1   91  1   1   0   1   1   0   1   0
2   92  0   0   1   1   1   0   1   0

Test points
Frequencies in MHz. Behind them: Hz for 1 ppm of each crystal, on channel 1.
point                         ch 1      ch 2      reference  loop     carrier
VCO                           38.29625  38.30625  +0.91      +37.386
"""


def planned(capsys: pytest.CaptureFixture[str], *words: str, code: int = 0) -> str:
    """Return what `dryjoint plan` prints."""
    assert main(["plan", *words, "--kb", "kb"]) == code
    return capsys.readouterr().out


def test_a_plan_is_shown_as_tables(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Title, arrangement, channels, points, lines, what a stuck line does, source."""
    shown = planned(capsys, "beacon-mixing")
    assert shown.startswith(HEAD)
    assert "p0    0         1      -10        0        1\n" in shown
    assert shown.endswith("\n\nSource: estimate\n")


def test_every_plan_fits_a_hundred_columns(library: Library) -> None:
    """All real plans, in each of their modes."""
    for plan in library.plans.values():
        for mode in plan.modes:
            lines = plan_text(plan_sheet(plan, mode)).splitlines()
            assert max(map(len, lines)) <= 100, plan.id
            assert len(lines) > 50 + len(plan.carriers)


def test_a_family_stands_for_its_plan(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Either name shows the same."""
    tie(kb)
    assert planned(capsys, "beacon") == planned(capsys, "beacon-mixing")


def test_notes_are_shown(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One point each."""
    path = kb / "plans" / "beacon-mixing.yaml"
    text = path.read_text(encoding="utf-8") + "notes: [Keep both crystals warm.]\n"
    path.write_text(text, encoding="utf-8")
    assert "\n- Keep both crystals warm.\n" in planned(capsys, "beacon-mixing")


def test_json_is_exact(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Frequencies in Hz as text, in the mode asked for."""
    data = json.loads(planned(capsys, "beacon-mixing", "--mode", "USB", "--json"))
    assert (data["plan"], data["mode"], data["modes"]) == ("beacon-mixing", "usb", ["fm", "usb"])
    assert data["channels"][1]["lo_hz"] == "38306250"
    assert data["channels"][1]["lines"]["p2"] == 1
    assert data["stuck_lines"][0] == {
        "line": "p0", "state": 0, "shifts_hz": {"1": "-10000"}, "no_lock": [],
    }  # fmt: skip
    points = {point["title"]: point for point in data["points"]}
    assert points["Carrier sent"]["first_hz"] == "27601250"
    assert points["Carrier sent"]["hz_per_ppm"] == {
        "reference": 0.91, "loop": 37.38625, "carrier": -10.695,
    }  # fmt: skip


def test_a_printed_chart_is_held_against_a_plan(
    kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Slips are named, and the code is 1."""
    Path("chart.csv").write_text("channel,n,lo\n1,93,38.306\n2,92,38.316\n", encoding="utf-8")
    assert planned(capsys, "beacon-mixing", "--chart", "chart.csv", code=1) == (
        "chart.csv: 2 channels held against 'beacon-mixing': 2 slips\n"
        "  channel 1: n is printed 93, should be 91\n"
        "  channels 1, 2: lo is printed 0.00975 too high, 38.306 to 38.316, "
        "should be 38.29625 to 38.30625\n"
    )
    told = json.loads(planned(capsys, "beacon-mixing", "--chart", "chart.csv", "--json", code=1))
    assert told[0] == {
        "column": "n", "channels": [1], "printed": ["93"], "right": ["91"], "by": "2",
    }  # fmt: skip


def test_a_right_chart_is_said_to_be(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is found, and the code is 0."""
    Path("chart.csv").write_text("channel,n\n1,91\n2,92\n", encoding="utf-8")
    told = "chart.csv: 2 channels held against 'beacon-mixing': no slips\n"
    assert planned(capsys, "beacon-mixing", "--chart", "chart.csv") == told


def test_the_printed_chart_of_the_sheet(capsys: pytest.CaptureFixture[str]) -> None:
    """The known misprints, in words."""
    chart = Path(__file__).parents[1] / "data" / "p1-printed-chart.csv"
    assert main(["plan", "two-crystal-up-mixed", "--chart", str(chart)]) == 1
    assert capsys.readouterr().out.splitlines()[1:] == [
        "  channel 20: frequency is printed 27.005, should be 27.205",
        "  channels 31 to 39: lo is printed 0.01 too high, 38.02 to 38.10, "
        "should be 38.01 to 38.09",
        "  channel 40: lo is printed 38.00, should be 38.1",
    ]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["becon"], "no set and no plan 'becon'. Did you mean 'beacon'?"),
        (["beacon"], "no frequency plan is known of 'beacon'"),
        (
            ["beacon-mixing", "--mode", "ubs"],
            "'beacon-mixing' has no mode 'ubs'. Did you mean 'usb'?",
        ),
        (["beacon-mixing", "--chart", "nowhere.csv"], "nowhere.csv: no such file"),
    ],
)
def test_a_wrong_name_is_a_wrong_command(
    words: list[str], said: str, kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The code is 2, and one line says why."""
    assert main(["plan", *words, "--kb", "kb"]) == 2
    assert capsys.readouterr().err == f"dryjoint: {said}\n"


def tie(kb: Path) -> None:
    """Give the family its plan."""
    path = kb / "families" / "beacon.yaml"
    text = path.read_text(encoding="utf-8")
    text = text.replace("rules: hill-farm\n", "rules: hill-farm\nplan: beacon-mixing\n")
    path.write_text(text, encoding="utf-8")
