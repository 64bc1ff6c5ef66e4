"""A knowledge base as one JSON text: parsed ahead, so that nobody has to read YAML again.

Data and lines are kept beside the words. A mapping becomes a list of pairs, as keys need not be
text (channel numbers); lines stand in the order in which a file is walked.
"""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from engine.knowledge.draft import ELSEWHERE
from engine.knowledge.reading import Source, parse
from engine.knowledge.wording import Path

FORMAT = 1


def dump_texts(texts: Mapping[str, str]) -> str:
    """Return the files of a knowledge base without problems as JSON; cases are left out."""
    files = {
        file: _packed(file, text) for file, text in texts.items() if not file.startswith(ELSEWHERE)
    }
    return json.dumps({"format": FORMAT, "files": files}, separators=(",", ":"))


def load_texts(shipped: str) -> tuple[dict[str, str], dict[str, Source]]:
    """Return the texts by file, and the same files parsed, as far as they were ahead.

    Raises:
        ValueError: the text was written in another format; build the site anew.
    """
    data = json.loads(shipped)
    if data["format"] != FORMAT:
        raise ValueError(f"format: found {data['format']}, expected {FORMAT}; build the site anew")
    files = data["files"]
    return (
        {file: item["text"] for file, item in files.items()},
        {file: _source(file, item) for file, item in files.items() if "data" in item},
    )


def _packed(file: str, text: str) -> dict[str, Any]:
    source, _ = parse(file, text)
    data = _pairs(source.data) if source else None
    if source is None or list(source.lines) != list(_walk(data, ())):
        return {"text": text}  # a key written in an unusual way, such as 007: read again there
    return {"text": text, "data": data, "lines": [*source.lines.values()]}


def _pairs(value: Any) -> Any:
    """Return a value with every mapping as {"": [[key, value], ...]}."""
    if isinstance(value, dict):
        return {"": [[key, _pairs(item)] for key, item in value.items()]}
    return [_pairs(item) for item in value] if isinstance(value, list) else value


def _source(file: str, item: dict[str, Any]) -> Source:
    lines = dict(zip(_walk(item["data"], ()), item["lines"], strict=True))
    return Source(file, _plain(item["data"]), lines)


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value[""]}
    return [_plain(item) for item in value] if isinstance(value, list) else value


def _walk(value: Any, path: Path) -> Iterator[Path]:
    """Yield every path in the order in which a file is read."""
    yield path
    below = enumerate(value) if isinstance(value, list) else ()
    for key, item in value[""] if isinstance(value, dict) else below:
        yield from _walk(item, (*path, str(key)))
