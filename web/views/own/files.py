"""What an author has typed or opened: plain files, one of them in the editor."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class OwnFile:
    """A file by the name its author gave it."""

    name: str
    text: str


@dataclass(frozen=True, slots=True)
class OwnFiles:
    """All files, and which one is in the editor; `kept` is False when nothing could be stored."""

    files: tuple[OwnFile, ...] = ()
    at: int = 0
    is_kept: bool = True

    @classmethod
    def read(cls, given: Mapping[str, Any] | None) -> "OwnFiles":
        """Return what the page holds; nothing when it holds nothing."""
        given = given or {}
        files = [OwnFile(str(one["name"]), str(one["text"])) for one in given.get("files", ())]
        at = min(max(int(given.get("at", 0)), 0), max(len(files) - 1, 0))
        return cls(tuple(files), at, bool(given.get("isKept", True)))
