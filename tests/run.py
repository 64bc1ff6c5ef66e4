"""Run every check and test of the project: `python3 tests/run.py`, alone enough on a new machine.

It makes .venv beside the project, finds or installs node, Chromium, Firefox and WebKit, runs all
stages even when one fails, and ends with 1 if any did.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from web.environment import ensure_environment, find_browser, find_node, find_others  # noqa: E402

STAGES = {
    "format": ("ruff", "format", "--check", "."),
    "lint": ("ruff", "check", "."),
    "types": ("mypy",),
    "knowledge": ("engine", "check", "kb"),
    "tests": ("pytest", "-q", "--numprocesses", "auto", "--dist", "loadgroup"),
}


def main() -> int:
    """Prepare the machine, run all stages, and return 0 when every one passed."""
    python = ensure_environment("dev")
    print(f"node: {find_node(python)}")
    print(f"browser: {find_browser() or 'none; the browser tests will fail'}", flush=True)
    missing = ", ".join(find_others())
    print(f"missing of the other browsers: {missing or 'nothing'}", flush=True)
    failed = [name for name, command in STAGES.items() if not passes(name, python, command)]
    print(f"\nfailed: {', '.join(failed)}" if failed else "\nall passed")
    return 1 if failed else 0


def passes(name: str, python: Path, command: tuple[str, ...]) -> bool:
    """Run one stage as a module of `python`, saying what it is and how long it took."""
    print(f"\n== {name}: {' '.join(command)}", flush=True)
    started = time.monotonic()
    code = subprocess.run(
        [str(python), "-m", *command],
        cwd=ROOT,
        env={**os.environ, "DRYJOINT_BROWSER_REQUIRED": "1"},
        check=False,
    ).returncode
    took = time.monotonic() - started
    print(f"-- {name} {'passed' if code == 0 else 'FAILED'} in {took:.0f} s", flush=True)
    return code == 0


if __name__ == "__main__":
    sys.exit(main())
