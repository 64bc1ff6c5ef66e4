from pathlib import Path

import pytest

from web.build.settling import beside, settle


def test_of_two_builds_at_once_the_first_stays(tmp_path: Path) -> None:
    """Each fills a folder of its own; the later one gives way and leaves nothing behind."""
    place = tmp_path / "cache" / "made"
    first, second = beside(place), beside(place)
    assert first != second
    for folder, words in ((first, "one"), (second, "two")):
        (folder / "file").write_text(words, encoding="utf-8")
        settle(folder, place)
    assert [path.name for path in place.parent.iterdir()] == ["made"]
    assert (place / "file").read_text(encoding="utf-8") == "one"


def test_what_cannot_be_put_in_place_is_told(tmp_path: Path) -> None:
    """A file where the folder should be is no other build."""
    place = tmp_path / "made"
    made = beside(place)
    place.write_text("in the way", encoding="utf-8")
    with pytest.raises(OSError, match="made"):
        settle(made, place)
