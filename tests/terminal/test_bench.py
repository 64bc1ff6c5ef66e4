from pathlib import Path

import pytest

from engine.__main__ import main
from engine.assessing.other_libraries import WAYS, shafer_shenoy


def test_each_kind_of_set_has_a_row(
    bench: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Kinds of set, made-up sets of three sizes with their growth, and other libraries."""
    ways = {way: WAYS[way] for way in ("pyagrum Shafer-Shenoy", "pgmpy beliefs")}
    monkeypatch.setattr("engine.terminal.bench.WAYS", {**ways, "absent library": shafer_shenoy})
    monkeypatch.setattr("engine.terminal.bench.SIZES", (10, 100, 200, 9000))
    assert main(["bench", "--kb", "kb", "--largest", "200"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[:3] for line in lines if line.startswith("beacon")] == [
        ["beacon", "8", "6"]
    ]
    first = [line.split()[0] for line in lines if line.strip()]
    assert [word for word in first if word in ("10", "100", "200", "9000")] == ["10", "100", "200"]
    assert any(line.startswith("grows as causes to the power of: entries 1.") for line in lines)
    for way in ways:
        (row,) = (line.split() for line in lines if line.startswith(f"{way} "))
        assert row[2] == "beacon"
        assert float(row[-1]) <= 1e-12
    (absent,) = (line for line in lines if line.startswith("absent"))
    assert absent.split() == ["absent", "library", "not", "installed", "-", "-", "-", "-"]
