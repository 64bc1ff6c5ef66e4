"""Repairs at the terminal: typed while working through a case, and read from a case file."""

from pathlib import Path

import pytest

from engine.__main__ import main
from engine.diagnosis.case import Repair
from engine.terminal.rank import load_case

CASE = """\
format: 1
family: beacon
findings:
  - {check: supply.rail-volts, answer: 13 V}
  - {check: sender.power, answer: 20 mW}
  - {check: sender.power, answer: 20 mW}
repairs:
  - {cause: sender.preset, how: adjusted, after: 2}
"""

WRONG = """\
format: 1
family: beacon
findings:
  - {check: supply.rail-volts, answer: 13 V}
repairs:
  - {cause: sender.prest, how: adjusted, after: 1}
  - {cause: past.drop, how: replaced, after: 0}
"""


def test_a_case_with_a_repair_is_ranked(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The report tells what was put right and whether it had been wrong; the other cause leads."""
    file = bench.parent / "case.yaml"
    file.write_text(CASE, encoding="utf-8")
    assert main(["rank", str(file), "--kb", "kb"]) == 0
    shown = capsys.readouterr().out
    assert "Put right, and how likely it had been wrong:" in shown
    assert "Drive preset turned down (adjusted)" in shown
    assert shown.index("Output transistor failed") < shown.index("sender.transistor-junctions")


def test_every_mistake_about_repairs_is_told(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A cause that is not known, what is no fault of a part, and a repair before its time."""
    file = bench.parent / "case.yaml"
    file.write_text(WRONG, encoding="utf-8")
    assert main(["rank", str(file), "--kb", "kb"]) != 0
    told = capsys.readouterr()
    said = told.out + told.err
    print(said)
    assert "repairs.0.cause: found 'sender.prest', expected a cause that can be put right" in said
    assert "Did you mean 'sender.preset'?" in said
    assert "repairs.1.cause: found 'past.drop', expected a cause that can be put right" in said
    assert "What happened to a set is past; name the part that it harmed." in said
    assert "repairs.1.after: found 0, expected a number from 1 to 1" in said


def test_a_repair_is_typed_saved_and_read_again(
    bench: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """`repaired` takes a number or an id; a slip is told, and the saved file holds the repair."""
    file = bench.parent / "case.yaml"
    file.write_text(CASE.split("repairs:")[0].rsplit("  -", 1)[0], encoding="utf-8")
    lines = iter(
        ["repaired 99", "repaired sender.preset polished", "repaired sender.preset",
         "found", "save later.yaml", "stop"]
    )  # fmt: skip
    monkeypatch.setattr("builtins.input", lambda prompt="": next(lines))
    assert main(["ask", str(file), "--kb", "kb"]) == 0
    shown = capsys.readouterr().out
    print(shown)
    assert "Repaired what? A number of the list that 'causes' shows." in shown
    assert "Found 'polished', expected one of replaced, adjusted, cleaned, put-back." in shown
    assert "Put right: Drive preset turned down. From now on answer for the set as it is." in shown
    assert "Power into the dummy load (before: 20 mW)" in shown
    _, case = load_case(Path("later.yaml"), Path("kb"))
    assert [each.repair for each in case.past] == [Repair("sender.preset", "adjusted")]
    assert [each.check for each in case.past[0].findings] == ["supply.rail-volts", "sender.power"]
