from dataclasses import FrozenInstanceError
from pathlib import Path

import pytest

from engine.errors import KnowledgeError
from engine.knowledge.census import Census, census
from engine.knowledge.library import load, read_library, version_of

SMALL = Path(__file__).parent / "small"


def test_a_library_holds_every_table_by_id(small: dict[str, str]) -> None:
    """Each file comes out under its own id."""
    library = load(small)
    assert list(library.families) == ["beacon"]
    assert list(library.blocks) == ["past", "sender", "supply"]
    assert set(library.instruments) == {"multimeter", "power-meter", "dummy-load"}
    assert set(library.cautions) == {"dummy-load-first", "discharge"}
    assert library.channels["hill-farm"].carriers_mhz == {1: 27.60125, 2: 27.61125}
    assert library.limits["hill-farm"]["carrier-power"].value == 4
    assert set(library.parts.classes) == {"transistor", "joint"}
    assert set(library.sources) == {"bench-book"}
    assert library.plans["beacon-mixing"].counts["receive"].by_channel == {1: 91, 2: 92}


def test_reading_a_directory_is_loading_its_texts(small: dict[str, str]) -> None:
    """The function that touches the disk adds nothing."""
    assert read_library(SMALL) == load(small)


def test_a_library_does_not_change(small: dict[str, str]) -> None:
    """Neither a field nor an entry can be set."""
    library = load(small)
    with pytest.raises(FrozenInstanceError):
        library.version = "0"  # type: ignore[misc]
    with pytest.raises(TypeError):
        library.blocks["other"] = library.blocks["past"]  # type: ignore[index]


def test_the_version_changes_with_any_file(small: dict[str, str]) -> None:
    """The order of the files does not matter, each character does."""
    backwards = dict(reversed(small.items()))
    assert version_of(backwards) == version_of(small)
    assert version_of(small | {"sources.yaml": small["sources.yaml"] + "\n"}) != version_of(small)


def test_cases_are_left_to_others(small: dict[str, str]) -> None:
    """What stands in cases/ is no knowledge."""
    assert load(small | {"cases/first.yaml": "["}).blocks


def test_a_file_that_is_not_text_is_told_with_the_others(
    small: dict[str, str], tmp_path: Path
) -> None:
    """One file in another encoding does not hide the problems of the rest."""
    for file, text in small.items():
        (tmp_path / file).parent.mkdir(exist_ok=True)
        (tmp_path / file).write_text(text, encoding="utf-8")
    (tmp_path / "sources.yaml").write_bytes(b"sources:\n  gr\xfcn: {}\n")
    (tmp_path / "blocks/past.yaml").write_text("", encoding="utf-8")
    with pytest.raises(KnowledgeError) as caught:
        read_library(tmp_path)
    assert str(caught.value) == (
        "blocks/past.yaml:1: (whole file): found an empty file, expected a document\n"
        "  Write it, or delete it.\n"
        "sources.yaml:2: (text): found the character 0xdcfc, expected UTF-8 text\n"
        "  Save it as UTF-8 text."
    )


def test_a_census_counts_by_kind(small: dict[str, str]) -> None:
    """Blocks, causes by kind, checks by kind."""
    assert census(load(small).blocks.values()) == Census(
        blocks=3,
        causes={"outside": 1, "fault": 2, "adjustment": 1, "event": 1},
        checks={"symptom": 2, "reading": 2, "look": 1, "question": 1},
    )
