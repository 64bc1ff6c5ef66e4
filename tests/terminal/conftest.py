from pathlib import Path
from shutil import copytree

import pytest

SMALL = Path(__file__).parents[1] / "knowledge" / "small"


@pytest.fixture
def kb(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a tiny knowledge base of its own, as `kb` in the current directory."""
    monkeypatch.chdir(tmp_path)
    return copytree(SMALL, tmp_path / "kb")
