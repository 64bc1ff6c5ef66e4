"""`dryjoint align --guide`: one step after the other, kept in a case file."""

from collections.abc import Callable
from pathlib import Path

import pytest

from engine.__main__ import main

CASE = """\
format: 1
family: three-crystal-fm
title: Set 7 of the cooperative, invented
kit: {instruments: everything, lid: off, counter-ppm: 0.5}
findings:
  - {check: regulators.regulated-volts, answer: 7.2 V, note: cold}
repairs:
  - {cause: regulators.rail-preset, how: adjusted, after: 1}
"""
KEPT = """\
set-up:
- adjustment: regulators.rail-preset
  before:
  - 8.05 V
- adjustment: reference-oscillator.ref-trimmer-set
  before:
  - 10.2403 MHz
  after:
  - 10.24001 MHz
- adjustment: loop-crystal-oscillator.loop-trimmer-set
"""
Guide = Callable[..., str]


@pytest.fixture
def guide(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Guide:
    """Return what is guided by the lines that are typed, and gives the transcript."""
    monkeypatch.chdir(tmp_path)
    Path("case.yaml").write_text(CASE, encoding="utf-8")

    def guided(*lines: str, case: str = "case.yaml") -> str:
        typed = iter(lines)

        def read(prompt: str) -> str:
            line = next(typed)
            print(prompt + line)
            return line

        monkeypatch.setattr("builtins.input", read)
        assert main(["align", case, "--guide", "kept.yaml"]) == 0
        assert next(typed, None) is None, "not every line was read"
        return capsys.readouterr().out

    return guided


def test_what_was_read_is_kept_beside_what_was_there(guide: Guide) -> None:
    """Findings keep their notes; a step with nothing read is one that was left out."""
    said = guide("8.05 V", "", "10.2403 MHz", "10.24001 MHz", "leave", "stop")
    assert said.index("! Cores break: ") < said.index("\n1. Preset of the regulated rail")
    assert "\n  Reference trimmer: holds\n" in said
    assert said.endswith("with: dryjoint align kept.yaml\n")
    text = Path("kept.yaml").read_text(encoding="utf-8")
    assert "  note: cold\n" in text
    assert text.endswith(KEPT)


def test_it_goes_on_where_it_stopped(guide: Guide) -> None:
    """The file that was kept begins with the next step, and loses nothing."""
    guide("8.05 V", "", "10.2403 MHz", "10.24001 MHz", "leave", "stop")
    said = guide("stop", case="kept.yaml")
    assert "\n4. VCO coil (vco.vco-core)\n" in said
    assert "\n2. Reference trimmer (reference-oscillator.ref-trimmer-set)\n  ! " not in said
    assert Path("kept.yaml").read_text(encoding="utf-8").endswith(KEPT)


def test_a_reading_that_is_none_is_asked_again(guide: Guide) -> None:
    """With what was expected; nothing of the step is kept."""
    said = guide("eight", "", "7.2 V", "8 V", "stop")
    assert "regulators.rail-preset: found 'eight' does not begin with a number" in said
    assert said.count("\n1. Preset of the regulated rail, where there is one (regulators") == 3


def test_a_visit_is_taken_back(guide: Guide) -> None:
    """The step before comes again."""
    said = guide("7.2 V", "8 V", "back", "stop")
    assert "\n7 of 7 steps not looked at yet.\n" in said


def test_one_that_will_not_come_right_leads_back(guide: Guide) -> None:
    """To the causes that its reading speaks for, at the end."""
    said = guide("8 V", "", "+0.5 ppm", "", "15.9967 MHz", "stuck", "15.9966 MHz", "stop")
    assert "Will not come right: Loop crystal trimmer. Find out why before going on." in said
    first = said.split("chance  kind ")[1].splitlines()[1]
    assert first.endswith("  loop-crystal-oscillator.loop-trimmer")


def test_a_file_that_cannot_be_written_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """And what was to be kept is printed, so that it is not lost."""
    monkeypatch.setattr("builtins.input", lambda prompt: "stop")
    path = tmp_path / "none" / "kept.yaml"
    assert main(["align", "three-crystal-fm", "--guide", str(path)]) == 2
    told = capsys.readouterr()
    assert told.out.endswith("\nformat: 1\nfamily: three-crystal-fm\n\n")
    assert told.err == (
        f"dryjoint: {path}: No such file or directory; what was to be kept stands above\n"
    )


def test_ctrl_c_loses_nothing(guide: Guide, monkeypatch: pytest.MonkeyPatch) -> None:
    """It stops as the word does, and what was read is kept."""
    guide("8.05 V", "", "10.2403 MHz", "10.24001 MHz", "leave", "stop")

    def interrupted(prompt: str) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr("builtins.input", interrupted)
    assert main(["align", "kept.yaml", "--guide", "again.yaml"]) == 0
    assert Path("again.yaml").read_text(encoding="utf-8").endswith(KEPT)
