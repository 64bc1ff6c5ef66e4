"""Fetches the pinned packages the page is made of, and refuses any other bytes."""

import hashlib
import subprocess
import tarfile
from dataclasses import dataclass
from pathlib import Path

from web.build.node import npm_command
from web.build.settling import beside, settle


@dataclass(frozen=True, slots=True)
class Package:
    """A pinned npm package: `sha256` is that of the packed archive, in hex."""

    name: str
    version: str
    sha256: str

    @property
    def archive(self) -> str:
        """Name of the file that `npm pack` writes."""
        return f"{self.name}-{self.version}.tgz"


PYODIDE = Package(
    "pyodide", "314.0.7", "66b7949e5a0cba2250b586d7e368bf12fb482800748d182c4618254b685ffaa0"
)
IDIOMORPH = Package(
    "idiomorph", "0.8.0", "c2b48584153f0167b5c98cb815576338ccd82a97378e53fbf29d139dfd67207e"
)

# Looks for what keeps people out; only the tests have it.
AXE = Package(
    "axe-core", "4.11.0", "39bed7d72308f6d620789c169d699bfd7e8da80f65b545821a6b2215c3e83107"
)


class BuildError(Exception):
    """The site cannot be built; says what was found, what was expected and what to do."""


def sha256(data: bytes) -> str:
    """Return the SHA-256 of `data` in hex."""
    return hashlib.sha256(data).hexdigest()


def fetch(package: Package, cache: Path) -> Path:
    """Return the folder with the unpacked files of `package`, fetching them when needed.

    Raises:
        BuildError: the archive is not the pinned one, or cannot be had.
    """
    folder = cache / f"{package.name}-{package.version}-{package.sha256[:12]}"
    if (folder / "package" / "package.json").is_file():
        return folder / "package"
    archive = cache / package.archive
    if not archive.is_file():
        _pack(package, cache)
    verify(archive, package.sha256)
    _unpack(archive, folder)
    return folder / "package"


def _pack(package: Package, cache: Path) -> None:
    """Let npm write the archive into `cache`."""
    cache.mkdir(parents=True, exist_ok=True)
    command = [*npm_command(), "pack", "--silent", f"{package.name}@{package.version}"]
    done = subprocess.run(command, cwd=cache, capture_output=True, text=True, check=False)
    if done.returncode or not (cache / package.archive).is_file():
        raise BuildError(
            f"npm could not fetch {package.name} {package.version}: {done.stderr.strip()}\n"
            f"  Check the connection, or put {package.archive} into {cache.name}/ by hand."
        )


def verify(path: Path, expected: str) -> None:
    """Refuse, and remove, a file whose sha-256 is not the pinned one.

    Raises:
        BuildError: it is another.
    """
    found = sha256(path.read_bytes())
    if found != expected:
        path.unlink()
        raise BuildError(
            f"{path.name}: found sha-256 {found}, expected {expected}\n"
            "  The file was removed. Build again; if it comes back, do not use it."
        )


def _unpack(archive: Path, folder: Path) -> None:
    """Unpack beside the target first, so that a broken run leaves nothing half done.

    Plain files inside the folder only, written by hand: the library's filter for that is not there
    in every release of Python 3.11.
    """
    partial = beside(folder).resolve()
    with tarfile.open(archive) as packed:
        for member in packed:
            place = (partial / member.name).resolve()
            content = packed.extractfile(member) if member.isfile() else None
            if content is None or not place.is_relative_to(partial):
                continue
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(content.read())
    settle(partial, folder)
