"""Rules on sources: every `source` of every file says where its figure is from."""

import re
from collections.abc import Collection, Iterator
from typing import Any

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.tables import Sources
from engine.knowledge.wording import Path

SOURCES = "sources.yaml"
SOURCE_KEYS = ("source", "old-set-source", "service-h-source")
OWN_WORD = ("common practice", "estimate")
_REMARK = re.compile(r"[;:,(]")  # what follows one of these is for the reader


def source_problems(draft: Draft) -> Iterator[Problem]:
    """Yield every source that is neither an id of sources.yaml nor one of the two words."""
    table = draft.table(SOURCES, Sources)
    if table is None:
        return
    known = [*table.sources, *OWN_WORD]
    expected = f"an id of {SOURCES}, 'common practice' or 'estimate'"
    for file in sorted(set(draft.pages) - {SOURCES}):
        page: Page[Any] = draft.pages[file]
        for path, said in _sources(page.source.data, ()):
            yield from unknown(page.source, path, cited(said, known), known, expected)


def cited(source: str, known: Collection[str]) -> str:
    """Return what a source begins with: one of `known`, or what stands there instead.

    >>> cited("common practice; the older sheets say 12 V", ["common practice", "estimate"])
    'common practice'
    >>> cited("estimated, from two sets", ["common practice", "estimate"])
    'estimated'
    """
    first = _REMARK.split(source, maxsplit=1)[0].strip()
    begun = [one for one in known if first.startswith(f"{one} ")]
    return begun[0] if begun else first


def _sources(data: Any, path: Path) -> Iterator[tuple[Path, str]]:
    """Yield the path and text of every source below `data`."""
    if isinstance(data, list):
        for index, value in enumerate(data):
            yield from _sources(value, (*path, index))
    if not isinstance(data, dict):
        return
    for key, value in data.items():
        if isinstance(value, str) and key in SOURCE_KEYS:
            yield (*path, key), value
        else:
            yield from _sources(value, (*path, key))
