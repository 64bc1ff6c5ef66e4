"""Turns Python sources into the archives of byte code that the browser loads."""

import shutil
import subprocess
import zipfile
from collections.abc import Mapping
from pathlib import Path

from web.build.node import node_command
from web.build.packages import BuildError, sha256
from web.build.settling import beside, settle

HERE = Path(__file__).parent
SCRIPTS = ("compile.mjs", "inside.py")
STDLIB, ABOUT = "stdlib.zip", "python.json"
EPOCH = (1980, 1, 1, 0, 0, 0)


def compiled(runtime: Path, bundles: Mapping[str, Mapping[str, bytes]], cache: Path) -> Path:
    """Return a folder with stdlib.zip, python.json and an archive for each bundle.

    Args:
        runtime: the unpacked Pyodide.
        bundles: by name of the archive, files by their path below site-packages; .py files are
            compiled, others taken as they are.
        cache: where results are kept, named by everything they depend on.
    """
    listed = repr([(name, sorted(files.items())) for name, files in sorted(bundles.items())])
    key = sha256(listed.encode() + _scripts() + runtime.parent.name.encode())
    folder = cache / f"compiled-{key[:16]}"
    if (folder / ABOUT).is_file():
        return folder
    partial = beside(folder)
    shutil.copyfile(runtime / "python_stdlib.zip", partial / "stdlib.source.zip")
    for name, files in bundles.items():
        _pack(files, partial / f"{name}.source.zip")
    _run(runtime, partial)
    settle(partial, folder)
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
