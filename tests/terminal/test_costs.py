"""Repair now or measure on, at the terminal."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from engine.__main__ import main
from tests.diagnosis.making.test_cause_texts import TABLE

CASE = """\
format: 1
family: beacon
findings:
  - {check: supply.rail-volts, answer: 13 V}
  - {check: sender.power, answer: 0.05 W}
"""
SHOWN = """\
Repair now or measure on, in minutes to be expected (estimates):
     33  now: up to 2 repairs in this order, then somebody else, worth 200
      1. Drive preset turned down: 12 min, ends it with 83 %
      2. Output transistor failed: 37 min, ends it with 9 %
         look first: Junctions of the output transistor (6 min)
         ! Switch off first
     34  after one more check: The set has fallen (1 min)
     35  after one more check: Others hear the set weakly (2 min)
     37  after one more check: Junctions of the output transistor (6 min)
  Cheapest: repair now.
"""


@pytest.fixture
def costed(bench: Path) -> Path:
    """Return a case file beside a tiny knowledge base that tells what repairs take."""
    (bench / "tables" / "repairs.yaml").write_text(TABLE, encoding="utf-8")
    file = bench.parent / "case.yaml"
    file.write_text(CASE, encoding="utf-8")
    return file


def test_a_report_tells_the_costs(costed: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Repairs in order with their cautions, checks before them, and which is cheapest."""
    assert main(["rank", str(costed), "--kb", "kb"]) == 0
    shown = capsys.readouterr().out
    assert SHOWN in shown, shown


def test_a_script_gets_the_same(costed: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In plain records; 33 minutes by hand: 12, a sixth of 8, 3.6 and 7.7 % of 200."""
    assert main(["rank", str(costed), "--kb", "kb", "--json"]) == 0
    costs = json.loads(capsys.readouterr().out)["costs"]
    assert costs["trouble"] == ["sender.output"]
    assert costs["repair_now"]["hand_over_min"] == 200
    assert round(costs["repair_now"]["expected_min"]) == 33
    attempts = costs["repair_now"]["attempts"]
    assert attempts[1]["look"] == {"check": "sender.transistor-junctions", "effort_min": 6}
    assert [each["check"] for each in costs["check_first"]] == [
        "past.fell",
        "sender.weak",
        "sender.transistor-junctions",
    ]
    assert costs["cheapest"] is None


def test_costs_are_asked_for_in_a_conversation(costed: Path, talk: Callable[..., str]) -> None:
    """The word `costs` shows the same; taking the reading back leaves nothing to repair."""
    told = talk("costs\ndrop 2\ncosts\nstop", str(costed))
    assert SHOWN in told, told
    assert "Nothing is known to be wrong yet, so there is nothing to repair." in told


def test_without_the_table_nothing_is_said_of_costs(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A report is as it was, and a script gets no figures."""
    file = bench.parent / "case.yaml"
    file.write_text(CASE, encoding="utf-8")
    assert main(["rank", str(file), "--kb", "kb"]) == 0
    assert "Repair now" not in capsys.readouterr().out
    assert main(["rank", str(file), "--kb", "kb", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["costs"] is None


def test_a_cause_shown_tells_what_its_repair_takes(
    costed: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Read back as it is reckoned with: work, part, lid, and how often it does it."""
    assert main(["show", "sender.output-transistor", "--kb", "kb"]) == 0
    shown = capsys.readouterr().out
    line = "Takes 30 min, its part worth 5 min, lid off; does it in 90% of cases (estimates)."
    assert f"  {line}\n" in shown, shown
    assert main(["show", "sender.output-transistor", "--kb", "kb", "--json"]) == 0
    repair = json.loads(capsys.readouterr().out)["repair"]
    assert repair == {"work_min": 30, "part_min": 5, "does_it": 0.9, "lid": "off"}
