"""Bytes that go over the line: a guard against a page that grows unnoticed."""

import gzip
import json
from collections import Counter
from pathlib import Path

STORED = Path(__file__).parents[1] / "data" / "shipped.json"
SMALL = "crystal-handheld"
MORE = 1.1  # times the stored bytes that still pass: words and knowledge grow


def shipped(site: Path) -> dict[str, int]:
    """Return the bytes of each part of a built site, packed; of the kinds of set one small one."""
    found: Counter[str] = Counter()
    for path in sorted(site.rglob("*")):
        folder = path.relative_to(site).parts[0]
        part = folder.rpartition("-")[0] if (site / folder).is_dir() else "root"
        if path.is_file() and (part != "families" or path.stem == SMALL):
            found[part] += len(gzip.compress(path.read_bytes(), 9, mtime=0))
    return dict(sorted(found.items()))


def test_no_part_of_the_site_is_much_larger_than_it_was(site: Path) -> None:
    """A tenth more fails: a library that slipped in, or a picture nobody packed."""
    stored, now = json.loads(STORED.read_text(encoding="utf-8")), shipped(site)
    assert now.keys() == stored.keys()
    grown = {part: (stored[part], size) for part, size in now.items() if size > MORE * stored[part]}
    assert not grown, (
        f"found more bytes shipped than stored: {grown}. If that is meant, say why in the commit "
        f"and write the new counts into tests/data/shipped.json: {json.dumps(now)}"
    )


def test_bytes_are_counted_by_part(tmp_path: Path) -> None:
    """Folders lose the hash of their content; other kinds of set are left out."""
    for name in ("app-0a1b/page.js", "families-2c3d/large.model", f"families-2c3d/{SMALL}.model"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(b"sheep" * 100)
    (tmp_path / "sw.js").write_bytes(b"")
    packed = len(gzip.compress(b"sheep" * 100, 9, mtime=0))
    empty = len(gzip.compress(b"", 9, mtime=0))
    assert shipped(tmp_path) == {"app": packed, "families": packed, "root": empty}
