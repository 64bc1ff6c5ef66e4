from pathlib import Path

import pytest

from engine.__main__ import main

COUNTS = """\
kb: all right, version {version}
kind          number
families           1
plans              1
blocks             3
causes             5
  adjustment       1
  event            1
  fault            2
  outside          1
symptoms           2
checks             4
  look             1
  question         1
  reading          2
"""


def break_state(kb: Path) -> None:
    """Write a state that the signal does not have."""
    path = kb / "blocks" / "sender.yaml"
    text = path.read_text(encoding="utf-8").replace("{drive: low}", "{drive: lwo}")
    path.write_text(text, encoding="utf-8")


def test_right_knowledge_is_counted(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Families, blocks, causes by kind, symptoms, and the other checks by kind."""
    assert main(["check", "kb"]) == 0
    told = capsys.readouterr()
    version = told.out.splitlines()[0].rpartition(" ")[2]
    assert len(version) == 12
    assert told.out == COUNTS.format(version=version)
    assert told.err == ""


def test_problems_name_files_an_editor_can_open(
    kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Problems go to the error stream, with the path as seen from here, and the code is 1."""
    break_state(kb)
    assert main(["check", "kb"]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err == (
        "kb/blocks/sender.yaml:40: causes.preset.makes.drive: found 'lwo', expected a state of "
        "'drive'\n  Did you mean 'low'?\n"
    )


def test_one_file_is_held_to_the_rest(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its own problems are told, those of other files are counted."""
    break_state(kb)
    assert main(["check", "kb/blocks/sender.yaml"]) == 1
    assert capsys.readouterr().out == "kb/blocks/sender.yaml: 1 problem; 0 in other files\n"
    assert main(["check", "kb/blocks/supply.yaml"]) == 0
    assert capsys.readouterr().out == "kb/blocks/supply.yaml: all right; 1 problem in other files\n"


def test_a_block_hears_of_its_wiring(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A family's complaint of a block's wiring concerns the author of the block too."""
    family = kb / "families" / "beacon.yaml"
    family.write_text(
        family.read_text(encoding="utf-8").replace("{rail: supply.rail}", "{}"), encoding="utf-8"
    )
    assert main(["check", "kb/blocks/sender.yaml"]) == 1
    assert capsys.readouterr().err == (
        "kb/families/beacon.yaml:12: wiring.sender: found nothing, expected a wire for the need "
        "'rail'\n  Write 'rail: supply.rail'.\n"
    )


@pytest.mark.parametrize("place", ["elsewhere", "elsewhere/blocks"])
def test_a_file_outside_is_taken_as_a_block(
    place: str, kb: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A draft on somebody's desk is held to the knowledge base beside the program."""
    monkeypatch.setattr("engine.terminal.check.BESIDE_THE_PACKAGE", kb)
    draft = Path(place) / "draft.yaml"
    draft.parent.mkdir(parents=True)
    draft.write_text("title: Draft\nabout: Not yet.\nmakes: {}\n", encoding="utf-8")
    assert main(["check", str(draft)]) == 1
    told = capsys.readouterr().err
    assert "kb/blocks/draft.yaml:1: causes: found nothing, expected the key 'causes'" in told
    assert "kb/blocks/draft.yaml:3: makes: found an empty mapping, expected 1 or more" in told


@pytest.mark.parametrize(
    ("name", "text", "place"),
    [
        ("parts.yaml", "classes: {}\n", "tables/parts.yaml"),
        ("other.yaml", "title: Other\nwiring: {}\n", "families/other.yaml"),
        ("other.yaml", "title: Other\nsynthesiser: {}\n", "plans/other.yaml"),
    ],
)
def test_a_file_outside_is_known_by_its_name_or_text(
    name: str,
    text: str,
    place: str,
    kb: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A table is known by its name, a family by its wiring."""
    monkeypatch.setattr("engine.terminal.check.BESIDE_THE_PACKAGE", kb)
    Path(name).write_text(text, encoding="utf-8")
    assert main(["check", name]) == 1
    assert f"kb/{place}:1: " in capsys.readouterr().err


def test_schemas_are_written_for_editors(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One file for each kind of knowledge file; each path is printed."""
    assert main(["check", "--schema", "schemas"]) == 0
    assert capsys.readouterr().out.splitlines() == [
        f"schemas/{path.name}" for path in sorted(Path("schemas").iterdir())
    ]


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("nowhere", "dryjoint: nowhere: no such file or directory\n"),
        (
            "empty",
            "dryjoint: empty: no knowledge base; none of sources.yaml, blocks, tables in it\n",
        ),
        ("kb/cases/one.yaml", "dryjoint: kb/cases/one.yaml: a case; `dryjoint rank` reads those\n"),
    ],
)
def test_a_wrong_path_is_a_wrong_command(
    path: str, said: str, kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The code is 2, and one line says why."""
    Path("empty").mkdir()
    (kb / "cases").mkdir()
    (kb / "cases" / "one.yaml").write_text("family: beacon\n", encoding="utf-8")
    assert main(["check", path]) == 2
    assert capsys.readouterr().err == said


def test_a_draft_that_is_not_utf_8_is_told_with_its_line(
    kb: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also when it stands outside of the knowledge base."""
    monkeypatch.setattr("engine.terminal.check.BESIDE_THE_PACKAGE", kb)
    Path("draft.yaml").write_bytes("title: Draft\nabout: für später\n".encode("latin-1"))
    assert main(["check", "draft.yaml"]) == 1
    assert capsys.readouterr().err == (
        "kb/blocks/draft.yaml:2: (text): found the character 0xdcfc, expected UTF-8 text\n"
        "  Save it as UTF-8 text.\n"
    )
