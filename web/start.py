"""Builds the page, serves it and opens it: `python3 web/start.py`, nothing else needed.

Made for a fresh machine with Python 3.11 or later: the environment is set up first.
"""

import subprocess
import sys
import webbrowser
from pathlib import Path
from threading import Timer

ROOT = Path(__file__).resolve().parents[1]
READY = "--in-environment"
OPEN_AFTER_S = 0.5  # by then the server listens


def main(arguments: list[str]) -> int:
    """Set up the environment, then run this file again inside it."""
    sys.path.insert(0, str(ROOT))
    if READY in arguments:
        return build_and_serve(opens="--no-browser" not in arguments)
    from web.environment import ensure_environment

    python = ensure_environment()
    try:
        return subprocess.call([str(python), __file__, READY, *arguments], cwd=ROOT)
    except KeyboardInterrupt:
        return 0


def build_and_serve(opens: bool) -> int:
    """Build the site, serve it, and open it in the person's browser."""
    from engine.errors import EngineError
    from web.build import BuildError, build_site
    from web.serving import HOST, PORT, serve

    print("Building the page; the first time takes a minute.", flush=True)
    try:
        built = build_site(ROOT / "build" / "site")
    except (BuildError, EngineError) as problem:
        print(problem, file=sys.stderr)
        return 1
    print(f"{built.files} files, {built.size_bytes / 1e6:.1f} MB, knowledge {built.knowledge}")
    if opens:
        Timer(OPEN_AFTER_S, webbrowser.open, [f"http://{HOST}:{PORT}/"]).start()
    serve(built.folder)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
