from pathlib import Path

import pytest

from engine.__main__ import main


def test_each_kind_of_set_has_a_row(
    bench: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Kinds of set, made-up sets of three sizes with their growth, and another library."""
    monkeypatch.setattr("engine.assessing.other_libraries.CAUSES", 40)
    monkeypatch.setattr("engine.terminal.bench.SIZES", (10, 100, 200, 9000))
    assert main(["bench", "--kb", "kb", "--largest", "200"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[:3] for line in lines if line.startswith("beacon")] == [
        ["beacon", "8", "6"]
    ]
    first = [line.split()[0] for line in lines if line.strip()]
    assert [word for word in first if word in ("10", "100", "200", "9000")] == ["10", "100", "200"]
    assert any(line.startswith("grows as causes to the power of: entries 1.") for line in lines)
    assert any(line.startswith("pyagrum") for line in lines)
