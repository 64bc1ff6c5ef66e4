"""The guide for authors is carried out as it stands: what it says to write is right."""

import re
import shutil
from collections import defaultdict
from pathlib import Path

import pytest
import yaml

from engine.__main__ import main

ROOT = Path(__file__).resolve().parents[2]
SMALL = Path(__file__).parent / "small"


def written() -> dict[str, str]:
    """Return what the guide says to write, by file; later pieces of a file follow earlier ones."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    guide = text.partition("### Write a block in an hour")[2].partition("\n## ")[0]
    found: dict[str, str] = defaultdict(str)
    for piece in re.findall(r"```yaml\n(.*?)```", guide, re.DOTALL):
        first, _, rest = piece.partition("\n")
        found[first.removeprefix("# ")] += rest
    return dict(found)


@pytest.fixture
def copy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a copy of the tiny knowledge with all that the guide says written into it."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.chdir(tmp_path)
    shutil.copytree(SMALL, tmp_path / "copy")
    for file, text in written().items():
        place = tmp_path / "copy" / file
        place.parent.mkdir(exist_ok=True)
        place.write_text(joined(place, text) if place.exists() else text, encoding="utf-8")
    return Path("copy")


def joined(place: Path, text: str) -> str:
    """Return a file with more lines under the keys that it has."""
    data = yaml.safe_load(place.read_text(encoding="utf-8"))
    for key, more in yaml.safe_load(text).items():
        data[key] = {**data[key], **more}
    return yaml.safe_dump(data, sort_keys=False)


def test_the_guide_is_short() -> None:
    """Three files and a case."""
    files = ["blocks/fold-lamp.yaml", "families/beacon.yaml", "cases/fold-lamp-dark.yaml"]
    assert list(written()) == files


def test_the_checker_finds_nothing_wrong(copy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What the guide says to write is right, and nothing of it is noted by the deep check."""
    assert main(["check", str(copy)]) == 0
    assert "copy: all right" in capsys.readouterr().out
    assert main(["check", str(copy), "--deep"]) == 0
    assert "fold-lamp-burnt" not in capsys.readouterr().out


def test_it_reads_as_a_mechanic_will_read_it(
    copy: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The block with its causes, and where it gets its rail from."""
    assert main(["show", "fold-lamp", "--kb", str(copy)]) == 0
    told = capsys.readouterr().out
    assert "rail from supply.rail" in told
    assert "fold-lamp-burnt: Fold lamp burnt out; failed part, 1 in 50 sets" in told


def test_its_case_comes_out_right(copy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The burnt lamp leads."""
    case = str(copy / "cases" / "fold-lamp-dark.yaml")
    assert main(["rank", case, "--kb", str(copy)]) == 0
    told = capsys.readouterr().out
    first = next(line for line in told.splitlines() if re.search(r"\d %", line))
    assert "fold-lamp.fold-lamp-burnt" in first or "Fold lamp burnt out" in first
