"""Archives are unpacked whole, and only into their folder."""

import io
import tarfile
from pathlib import Path

from web.build.packages import _unpack


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
