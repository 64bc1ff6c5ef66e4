"""Turns Python sources into the archives of byte code that the browser loads."""

import shutil
import subprocess
import zipfile
from collections.abc import Mapping
from pathlib import Path

from web.build.node import node_command
from web.build.packages import BuildError, sha256

HERE = Path(__file__).parent
SCRIPTS = ("compile.mjs", "inside.py")
STDLIB, BUNDLE, ABOUT = "stdlib.zip", "bundle.zip", "python.json"
EPOCH = (1980, 1, 1, 0, 0, 0)


def compiled(runtime: Path, bundle: Mapping[str, bytes], cache: Path) -> Path:
    """Return a folder with stdlib.zip, bundle.zip and python.json.

    Args:
        runtime: the unpacked Pyodide.
        bundle: our files by their path below site-packages; .py files are compiled.
        cache: where results are kept, named by everything they depend on.
    """
    key = sha256(repr(sorted(bundle.items())).encode() + _scripts() + runtime.parent.name.encode())
    folder = cache / f"compiled-{key[:16]}"
    if (folder / ABOUT).is_file():
        return folder
    partial = folder.with_suffix(".partial")
    shutil.rmtree(partial, ignore_errors=True)
    partial.mkdir(parents=True)
    shutil.copyfile(runtime / "python_stdlib.zip", partial / "stdlib.source.zip")
    _pack(bundle, partial / "bundle.source.zip")
    _run(runtime, partial)
    partial.rename(folder)
    return folder


def _scripts() -> bytes:
    return b"".join((HERE / name).read_bytes() for name in SCRIPTS)


def _pack(files: Mapping[str, bytes], archive: Path) -> None:
    with zipfile.ZipFile(archive, "w") as written:
        for name, data in sorted(files.items()):
            written.writestr(zipfile.ZipInfo(name, EPOCH), data)


def _run(runtime: Path, folder: Path) -> None:
    script, inside = (str(HERE / name) for name in SCRIPTS)
    command = [*node_command(), script, str(runtime), inside, str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode or not (folder / ABOUT).is_file():
        raise BuildError(f"node could not compile the Python files:\n{done.stderr[-2000:]}")
