"""The page of figures: what stands on it, and that its plots say what the tables say."""

import json
import re
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import pytest

from engine.assessing.runs import SIMULATED, Setting, UnreadableRun, keep_runs, read_runs, run_of
from web.build.how_well import STORED, how_well_page
from web.build.plots import Group, Mark, chances, intervals

UNMEASURED = Path("no-such-file.json")
FAMILIES = {"beacon": "Hill-farm beacon"}


def figure(at: float, low: float, high: float) -> dict[str, float]:
    """Return a figure with its interval."""
    return {"at": at, "low": low, "high": high}


def run(policy: str, faults: str, report: str = "complaint", known: str = "right") -> Any:
    """Return an invented run."""
    scores = {
        "sets": 10,
        "found": figure(0.8, 0.49, 0.94),
        "first": figure(0.9, 0.6, 0.98),
        "needless": figure(0.1, 0.02, 0.4),
        "checks": figure(6.0, 5.0, 7.5),
        "minutes": figure(41.0, 30.0, 55.0),
        "floor": {"capacity": 3.25},
        "reliability": [
            {"from": 0.8, "to": 0.9, "told": 40, "sets": 9, "mean": 0.85, **figure(0.9, 0.7, 1.0)}
        ],
    }
    setting = Setting("beacon", policy, known, faults, "full", report, 10, 1, 25, "abc")
    return run_of(setting, scores)


@pytest.fixture
def page(tmp_path: Path) -> str:
    """Return the page of three invented runs."""
    stored = tmp_path / "runs.json"
    keep_runs(stored, [run("shipped", "1"), run("chart", "1"), run("shipped", "2")])
    keep_runs(stored, [run("shipped", "any", "asked")])
    return how_well_page("looks.css", FAMILIES, stored, UNMEASURED).decode()


def test_it_says_first_what_is_simulated(page: str) -> None:
    """Nobody reads a figure before that."""
    assert page.index(SIMULATED) < page.index("<svg")
    assert page.index(SIMULATED) < page.index("<table")


def test_it_begins_with_what_the_runs_come_to(page: str, tmp_path: Path) -> None:
    """Each set counts the same: 10 of 0.8 in 6 checks and 30 of 0.6 in 10 are 65 % in 9."""
    assert (
        "In short: of 10 made-up sets with one thing wrong, looked at with every instrument, 80 % "
        "ended with the right cause named and sure enough to act on. It took 6 checks in the mean"
    ) in page
    more = run("shipped", "1")
    more["setting"] = {**more["setting"], "family": "other"}
    more["scores"] = {
        **more["scores"],
        "sets": 30,
        "found": figure(0.6, 0.4, 0.8),
        "checks": figure(10.0, 9.0, 11.0),
    }
    stored = tmp_path / "more.json"
    keep_runs(stored, [run("shipped", "1"), more])
    told = how_well_page("looks.css", FAMILIES, stored, UNMEASURED).decode()
    assert "of 40 made-up sets" in told
    assert "65 % ended with the right cause" in told
    assert "It took 9 checks in the mean" in told


def test_every_figure_stands_in_a_table_too(page: str) -> None:
    """Found, checks, floor and minutes of a run; chances told and come true."""
    rows = re.findall(r"<tr>(.*?)</tr>", page)
    cells = [re.findall(r"<td>(.*?)</td>", row) for row in rows]
    chart = "A printed chart: supply, audio, receiver, synthesiser, transmitter"
    figures = ["80 (49 to 94)", "6 (5 to 8)", "3.2", "41 (30 to 55)"]
    assert ["Hill-farm beacon", chart, "10", *figures] in cells
    told = ["Hill-farm beacon", "Knowledge as shipped", "80 to 90 %", "40", "9", "90 (70 to 100)"]
    assert told in cells
    assert ["Hill-farm beacon", "2", "10", "90 (60 to 98)", "10 (2 to 40)", "6 (5 to 8)"] in cells


def test_knowledge_and_seed_are_named(page: str) -> None:
    """Figures of another knowledge are not taken for those of this one."""
    assert "Seed 1. Knowledge: beacon abc." in page


def test_sets_that_were_mended_have_a_table_of_their_own(tmp_path: Path) -> None:
    """Beside nothing else, and no plot is drawn of them."""
    scores = {
        "sets": 8,
        "content": figure(1.0, 0.7, 1.0),
        "restored": figure(0.5, 0.2, 0.8),
        "proved": figure(0.25, 0.1, 0.6),
        "needless_repairs": figure(0.25, 0.0, 0.6),
        "checks": figure(9.0, 7.0, 12.0),
        "minutes": figure(101.0, 80.0, 130.0),
    }
    setting = Setting(
        "beacon", "mend-by-verdict", "right", "1", "full", "complaint", 8, 1, 25, "abc"
    )
    keep_runs(tmp_path / "runs.json", [run_of(setting, scores)])
    page = how_well_page("looks.css", FAMILIES, tmp_path / "runs.json", UNMEASURED).decode()
    cells = re.findall(r"<td>(.*?)</td>", page)
    shares = ["100 (70 to 100)", "50 (20 to 80)", "25 (10 to 60)"]
    figures = [*shares, "0.2 (0.0 to 0.6)", "9.0 (7.0 to 12.0)"]
    way = "Measure until told to act, then repair"
    assert cells == ["Hill-farm beacon", "1", way, "8", *figures, "101 (80 to 130)"]
    assert "<svg" not in page


def test_without_runs_it_says_so(tmp_path: Path) -> None:
    """No figure is made up."""
    page = how_well_page("looks.css", FAMILIES, tmp_path / "none.json", UNMEASURED).decode()
    assert "Nothing was run for this version yet." in page
    assert "<svg" not in page


def test_runs_of_another_format_are_told(tmp_path: Path) -> None:
    """The build stops, with what to do."""
    stored = tmp_path / "runs.json"
    stored.write_text(json.dumps({"format": 9, "runs": []}), encoding="utf-8")
    with pytest.raises(UnreadableRun) as told:
        how_well_page("looks.css", FAMILIES, stored, UNMEASURED)
    assert str(told.value) == f"{stored}: found format 9, expected 1\n  Run the assessment again."


def test_the_stored_runs_fit_the_page() -> None:
    """What is shipped can be read, and holds the fixed order beside the shipped one."""
    runs = read_runs(STORED)
    assert {run["setting"]["policy"] for run in runs} >= {"shipped", "chart"}
    assert b"<svg" in how_well_page("looks.css", FAMILIES)


def marks(drawn: Element) -> list[tuple[float, float]]:
    """Return where the marks of a plot begin."""
    paths = [each.get("d", "") for each in drawn.iter("path") if "mark" in each.get("class", "")]
    return [(float(x), float(y)) for x, y in (re.findall(r"[\d.]+", path)[:2] for path in paths)]


def test_a_mark_stands_where_its_figure_says() -> None:
    """Half of the axis lies in the middle between its ends; a circle begins a radius before."""
    groups = [Group("a", tuple(Mark(0, at, at, at, "") for at in (0.0, 0.5, 1.0)))]
    (left, _), (middle, _), (right, _) = marks(intervals("t", groups, 1.0, (0, 1)))
    assert middle == pytest.approx((left + right) / 2.0, abs=0.1)
    assert right - left == pytest.approx(336.0, abs=0.1)


def test_chances_that_are_right_stand_on_the_line() -> None:
    """As far across as up."""
    points = [(p, Mark(0, p, p, p, "")) for p in (0.0, 0.25, 1.0)]
    (x0, y0), (x1, y1), (x2, y2) = marks(chances("t", [points]))
    assert (x1 - x0, x2 - x0) == pytest.approx((y0 - y1, y0 - y2), abs=0.2)
