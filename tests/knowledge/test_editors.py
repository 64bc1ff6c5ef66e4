import json
from pathlib import Path

from engine.knowledge.editors import schemas, write_schemas

KINDS = (
    "block", "cautions", "channels", "coming-and-going", "family", "frequencies", "glossary",
    "instruments", "kinds", "limits", "parts", "plan", "proof", "repairs", "setting-up", "sources",
    "words",
)  # fmt: skip


def test_every_kind_of_file_has_a_schema(tmp_path: Path) -> None:
    """One file each, made in a directory that need not exist."""
    written = write_schemas(tmp_path / "new")
    assert [path.name for path in written] == [f"{kind}.schema.json" for kind in KINDS]
    for path in written:
        assert json.loads(path.read_text(encoding="utf-8"))["type"] == "object"


def test_a_schema_knows_the_keys_as_authors_write_them() -> None:
    """Keys are in kebab-case, and others are refused."""
    block = json.loads(schemas()["block.schema.json"])
    assert "looks-at" in block["$defs"]["Check"]["properties"]
    assert block["$defs"]["Check"]["additionalProperties"] is False
    assert set(block["required"]) == {"title", "about", "makes", "causes"}


def test_a_schema_knows_both_forms_of_a_reading() -> None:
    """A state reads about a typical value, or between two ends."""
    check = json.loads(schemas()["block.schema.json"])["$defs"]["Check"]
    (forms,) = check["properties"]["reads"]["patternProperties"].values()
    assert forms == {"oneOf": [{"$ref": "#/$defs/Normal"}, {"$ref": "#/$defs/Between"}]}
