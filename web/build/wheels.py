"""Fetches the pinned Python packages of what comes later, and refuses any other bytes.

The page at work needs none of them: they are packed apart and loaded when somebody opens their own
knowledge, or writes to the owner of a set.
"""

import subprocess
import sys
import zipfile
from dataclasses import dataclass
from pathlib import Path

from web.build.packages import BuildError, verify

RUNTIME = "pyemscripten_2026_0_wasm32"  # the platform of the pinned runtime
PYTHON = "3.14"  # and its Python
UNWANTED = ("/tests/", "pydantic/v1/", "pydantic/mypy.py", "segno/cli.py", "segno/helpers.py")


@dataclass(frozen=True, slots=True)
class Wheel:
    """A pinned package: `sha256` is that of the wheel, in hex, `folder` what is imported.

    With `plain`, only its Python files are taken: the rest was made for another machine. `part` is
    the archive it is packed into.
    """

    name: str
    version: str
    file: str
    sha256: str
    folder: str
    platform: str = RUNTIME
    plain: bool = False
    part: str = "packages"


ANY = "py3-none-any.whl"
WHEELS = (
    Wheel(
        "annotated-types",
        "0.8.0",
        f"annotated_types-0.8.0-{ANY}",
        "f072f4d804ea359e4eaf198b1af7a8b0943881a87f31bb764f8bf219bb9419e0",
        "annotated_types/",
    ),
    Wheel(
        "networkx",
        "3.6.1",
        f"networkx-3.6.1-{ANY}",
        "d47fbf302e7d9cbbb9e2555a0d267983d2aa476bac30e90dfbe5669bd57f3762",
        "networkx/",
    ),
    Wheel(
        "pydantic",
        "2.14.4",
        f"pydantic-2.14.4-{ANY}",
        "653a2ad9f6d8858529c77c72717d0ea991d6c6837fe683246b2f4b2bbfc3fadc",
        "pydantic/",
    ),
    Wheel(
        "pydantic-core",
        "2.50.5",
        f"pydantic_core-2.50.5-cp314-cp314-{RUNTIME}.whl",
        "b2910ec0fa5aeb9bef70156f2b79f4783978fdcfaa7b2f1b5d1814458d2e79a1",
        "pydantic_core/",
    ),
    Wheel(
        "pyyaml",
        "6.0.4",
        "pyyaml-6.0.4-cp314-cp314-"
        "manylinux2014_x86_64.manylinux_2_17_x86_64.manylinux_2_28_x86_64.whl",
        "c604dc2613c417130479cdd6e55c2faa691b6365aa82b3dafddfcecc2eaf1ac7",
        "yaml/",
        platform="manylinux2014_x86_64",
        plain=True,
    ),
    Wheel(
        "segno",
        "1.6.6",
        f"segno-1.6.6-{ANY}",
        "28c7d081ed0cf935e0411293a465efd4d500704072cdb039778a2ab8736190c7",
        "segno/",
        part="desk",
    ),
    Wheel(
        "typing-extensions",
        "4.16.0",
        f"typing_extensions-4.16.0-{ANY}",
        "481caa481374e813c1b176ada14e97f1f67a4539ce9cfeb3f350d78d6370c2e8",
        "typing_extensions.py",
    ),
    Wheel(
        "typing-inspection",
        "0.4.5",
        f"typing_inspection-0.4.5-{ANY}",
        "bc210535442b39e1bf2805e0c7a17dfd6a4ace760c84c7f7d16245d23a6b1c39",
        "typing_inspection/",
    ),
)


def wheel_files(part: str, cache: Path) -> dict[str, bytes]:
    """Return what the browser imports of the wheels of a part, by path below site-packages.

    Raises:
        BuildError: a wheel is not the pinned one, or cannot be had.
    """
    wheels = (wheel for wheel in WHEELS if wheel.part == part)
    return {name: data for wheel in wheels for name, data in _files(wheel, cache).items()}


def licence(wheel: Wheel, cache: Path) -> tuple[str, str]:
    """Return where a package lives and the text of its licence, both as the wheel says."""
    with zipfile.ZipFile(fetch_wheel(wheel, cache)) as packed:
        names = [name for name in packed.namelist() if ".dist-info/" in name]
        about = next(name for name in names if name.endswith("/METADATA"))
        texts = [name for name in names if "LICENSE" in name.upper().rpartition("/")[2]]
        home = _home(packed.read(about).decode())
        return home, "\n".join(packed.read(name).decode() for name in texts)


def _home(metadata: str) -> str:
    """Return the address of the source, or of the project."""
    lines = [
        line for line in metadata.splitlines() if line.startswith(("Project-URL", "Home-page"))
    ]
    for mark in ("source", "home", "repository"):
        for line in lines:
            if mark in line.lower().split("http")[0]:
                return f"http{line.partition('http')[2]}"
    return ""


def _files(wheel: Wheel, cache: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(fetch_wheel(wheel, cache)) as packed:
        names = [name for name in packed.namelist() if name.startswith(wheel.folder)]
        return {name: packed.read(name) for name in names if _is_wanted(name, wheel.plain)}


def _is_wanted(name: str, plain: bool) -> bool:
    if name.endswith((".pyi", "/")) or any(part in name for part in UNWANTED):
        return False
    return name.endswith(".py") or not plain


def fetch_wheel(wheel: Wheel, cache: Path) -> Path:
    """Return the file of a pinned wheel, fetching it when needed.

    Raises:
        BuildError: it is not the pinned one, or cannot be had.
    """
    path = cache / wheel.file
    if not path.is_file():
        _download(wheel, cache)
    verify(path, wheel.sha256)
    return path


def _download(wheel: Wheel, cache: Path) -> None:
    """Let pip write the wheel into `cache`."""
    cache.mkdir(parents=True, exist_ok=True)
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check"]
    command += ["--no-deps", "--only-binary=:all:", "--implementation", "cp"]
    command += ["--python-version", PYTHON, "--platform", wheel.platform, "--dest", str(cache)]
    done = subprocess.run(
        [*command, f"{wheel.name}=={wheel.version}"], capture_output=True, text=True, check=False
    )
    if done.returncode or not (cache / wheel.file).is_file():
        raise BuildError(
            f"pip could not fetch {wheel.name} {wheel.version}: {done.stderr.strip()}\n"
            f"  Check the connection, or put {wheel.file} into {cache.name}/ by hand."
        )
