"""Archives are unpacked whole, and only into their folder; wheels are the pinned ones."""

import io
import tarfile
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from web.build.packages import BuildError, _unpack
from web.build.wheels import WHEELS, fetch_wheel


def packed(path: Path, files: dict[str, bytes]) -> Path:
    """Write an archive with these files, and one link."""
    with tarfile.open(path, "w:gz") as archive:
        for name, content in files.items():
            member = tarfile.TarInfo(name)
            member.size = len(content)
            archive.addfile(member, io.BytesIO(content))
        link = tarfile.TarInfo("package/link")
        link.type, link.linkname = tarfile.SYMTYPE, "/etc/hostname"
        archive.addfile(link)
    return path


def test_plain_files_inside_are_unpacked_and_nothing_else(tmp_path: Path) -> None:
    """A name that climbs out of the folder and a link are left alone."""
    files = {"package/a.txt": b"wool", "package/lib/b.txt": b"hay", "../outside.txt": b"wolf"}
    _unpack(packed(tmp_path / "some.tgz", files), tmp_path / "out")
    found = sorted(p.relative_to(tmp_path).as_posix() for p in tmp_path.rglob("*") if p.is_file())
    assert found == ["out/package/a.txt", "out/package/lib/b.txt", "some.tgz"]
    assert (tmp_path / "out/package/lib/b.txt").read_bytes() == b"hay"


def test_the_browser_gets_the_versions_used_here() -> None:
    """What pyproject.toml pins is what the author's tools on the page are made of."""
    project = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text())["project"]
    pinned = {f"{wheel.name}=={wheel.version}" for wheel in WHEELS}
    assert set(project["dependencies"]) <= pinned


def test_other_bytes_than_the_pinned_ones_are_refused(tmp_path: Path) -> None:
    """The file is removed, so that the next build asks again."""
    wheel = replace(WHEELS[0], file="some.whl", sha256="0" * 64)
    (tmp_path / "some.whl").write_bytes(b"wolf")
    with pytest.raises(BuildError) as caught:
        fetch_wheel(wheel, tmp_path)
    assert f"{caught.value}" == (
        "some.whl: found sha-256 f76b61b962db075bb76ad6f3fab10f7bd546f92f1b89f18c513d4122575c18ac, "
        f"expected {'0' * 64}\n"
        "  The file was removed. Build again; if it comes back, do not use it."
    )
    assert not (tmp_path / "some.whl").exists()
