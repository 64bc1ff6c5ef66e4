from collections.abc import Callable
from pathlib import Path
from shutil import copytree

import pytest

from engine.__main__ import main

SMALL = Path(__file__).parents[1] / "knowledge" / "small"


@pytest.fixture
def kb(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a tiny knowledge base of its own, as `kb` in the current directory."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return copytree(SMALL, tmp_path / "kb")


@pytest.fixture
def bench(kb: Path) -> Path:
    """Return the same, where a command looks for it."""
    return kb


@pytest.fixture
def talk(
    bench: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., str]:
    """Return what holds a conversation: lines typed in, words after `ask`; the transcript out."""

    def held(lines: str, *words: str) -> str:
        typed = iter(lines.splitlines())

        def read(prompt: str) -> str:
            line = next(typed, None)
            print(prompt + ("" if line is None else line))
            if line is None:
                raise EOFError
            return line

        monkeypatch.setattr("builtins.input", read)
        assert main(["ask", *words, "--kb", "kb"]) == 0
        assert next(typed, None) is None, "not every line was read"
        return capsys.readouterr().out

    return held
