"""`dryjoint ask` on a case file that was set up: visits count, each where it was made."""

from pathlib import Path

import pytest

from engine.__main__ import main

CASE = """\
format: 1
family: three-crystal-fm
kit: {instruments: everything, lid: off, counter-ppm: 0.5}
findings:
  - {check: regulators.regulated-volts, answer: 8.05 V}
set-up:
  - {adjustment: regulators.rail-preset, before: 8.05 V}
  - adjustment: loop-crystal-oscillator.loop-trimmer-set
    before: 15.9967 MHz
    after: 15.9966 MHz
    gave-up: true
"""
LEADS = "loop-crystal-oscillator.loop-trimmer"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return a case file in which a trimmer would not come right."""
    path = tmp_path / "case.yaml"
    path.write_text(CASE, encoding="utf-8")
    return path


def typed(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    """Let these lines be typed."""
    waiting = iter(lines)
    monkeypatch.setattr("builtins.input", lambda prompt: next(waiting))


def test_visits_are_evidence_and_findings_come_after_them(
    path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What would not come right leads, as in `rank`; a later finding is saved as a later one."""
    typed(monkeypatch, "cannot", f"save {path}", "stop")
    assert main(["ask", str(path)]) == 0
    first, *_ = (line for line in capsys.readouterr().out.splitlines() if line[:1].isdigit())
    assert first.split()[-1] == LEADS
    text = path.read_text(encoding="utf-8")
    assert text.count("  findings-before: 1\n") == 2
    assert main(["rank", str(path)]) == 0
    assert LEADS in capsys.readouterr().out


def test_a_place_that_cannot_be_is_told(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With the line, what was found and what is possible there."""
    text = CASE.replace("before: 8.05 V}", "before: 8.05 V, findings-before: 4}")
    path.write_text(text, encoding="utf-8")
    assert main(["ask", str(path)]) == 1
    assert capsys.readouterr().err == (
        f"{path}:7: set-up.0.findings-before: found 4, expected a number from 0 to 1\n"
        "  Count the findings made before this visit; put visits in order of time.\n"
    )
