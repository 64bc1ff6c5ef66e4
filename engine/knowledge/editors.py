"""JSON Schemas, with which an editor completes keys and marks slips while an author types."""

import json
from collections.abc import Mapping
from pathlib import Path

from engine.knowledge.draft import FOLDERS, OPTIONAL, TABLES, name_of

DIALECT = "https://json-schema.org/draft/2020-12/schema"
SINGULAR = {"blocks": "block", "families": "family", "plans": "plan"}


def schemas() -> Mapping[str, str]:
    """Return one JSON Schema for each kind of knowledge file, by file name."""
    models = {SINGULAR[folder]: model for folder, model in FOLDERS.items()}
    models |= {name_of(file): model for file, model in {**TABLES, **OPTIONAL}.items()}
    return {
        f"{name}.schema.json": _text({"$schema": DIALECT, **model.model_json_schema()})
        for name, model in sorted(models.items())
    }


def write_schemas(directory: Path) -> list[Path]:
    """Write every schema into `directory`, which is made if need be; return the paths."""
    directory.mkdir(parents=True, exist_ok=True)
    written = []
    for name, text in schemas().items():
        path = directory / name
        path.write_text(text, encoding="utf-8")
        written.append(path)
    return written


def _text(schema: Mapping[str, object]) -> str:
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
