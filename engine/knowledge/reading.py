"""Text to checked models, keeping the line of everything an author wrote."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any, TypeVar

import yaml
from pydantic import BaseModel, ValidationError

from engine.errors import Problem
from engine.knowledge.loader import compose
from engine.knowledge.wording import Path, word

Model = TypeVar("Model", bound=BaseModel)

WHOLE = "(whole file)"
YAML_REMEDY = (
    "Look at the indentation, the space after each colon, and put quotes about text that "
    "contains ': ' or begins with a sign."
)


@dataclass(frozen=True, slots=True)
class Source:
    """A parsed file: its data, and the line on which each path begins, counted from 1."""

    file: str
    data: Any
    lines: dict[Path, int]

    def line(self, path: Path) -> int:
        """Return the line of `path`, or of the nearest thing around it that has one."""
        steps = tuple(str(step) for step in path)
        while steps and steps not in self.lines:
            steps = steps[:-1]
        return self.lines.get(steps, 1)

    def problem(self, path: Path, found: str, expected: str, remedy: str) -> Problem:
        """Return a problem at `path` of this file."""
        return Problem(self.file, self.line(path), dotted(path), found, expected, remedy)


def dotted(path: Path) -> str:
    """Return a path as an author reads it.

    >>> dotted(("causes", "core-broken", "prior"))
    'causes.core-broken.prior'
    """
    return ".".join(str(step) for step in path) or WHOLE


def read_text(path: FilePath) -> str:
    """Return the text of a file.

    Bytes that are not UTF-8 become characters that no YAML may hold, so that they are reported
    where they stand, with all other problems.
    """
    return path.read_text(encoding="utf-8", errors="surrogateescape")


def parse(file: str, text: str) -> tuple[Source | None, list[Problem]]:
    """Return the data of a YAML or JSON text with its lines, or what keeps it from being read."""
    try:
        return _parse(file, text)
    except yaml.MarkedYAMLError as error:
        return None, [_syntax(file, error)]
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + 1
        found, remedy = f"the character {error.character:#06x}", "Save it as UTF-8 text."
        return None, [Problem(file, line, "(text)", found, "UTF-8 text", remedy)]
    except (RecursionError, ValueError):
        found, remedy = "something nested or numbered past reading", "Look for a run of brackets."
        return None, [Problem(file, 1, WHOLE, found, "YAML", remedy)]


def _parse(file: str, text: str) -> tuple[Source | None, list[Problem]]:
    root, loader = compose(text)
    if root is None:
        remedy = "Write it, or delete it."
        return None, [Problem(file, 1, WHOLE, "an empty file", "a document", remedy)]
    lines: dict[Path, int] = {}
    problems = list(_walk(file, root, (), lines))
    if problems:
        return None, problems
    return Source(file, loader.construct_document(root), lines), []


def validate(source: Source, model: type[Model]) -> tuple[Model | None, list[Problem]]:
    """Return `source` as a model, or every problem pydantic finds in it."""
    try:
        return model.model_validate(source.data), []
    except ValidationError as error:
        details = error.errors(include_url=False)
        worded = [word(model, source.data, detail) for detail in details]
        # Of the members of a union that were tried at one place, the first speaks for all.
        first = {facts[0]: facts for facts in reversed(worded)}
        return None, [source.problem(*facts) for facts in reversed(first.values())]


def _walk(file: str, node: yaml.Node, path: Path, lines: dict[Path, int]) -> Iterator[Problem]:
    """Note the line of every path below `node`; yield the keys that cannot stand."""
    lines.setdefault(path, node.start_mark.line + 1)
    if isinstance(node, yaml.SequenceNode):
        for index, value in enumerate(node.value):
            yield from _walk(file, value, (*path, str(index)), lines)
    if not isinstance(node, yaml.MappingNode):
        return
    for key, value in node.value:
        line = key.start_mark.line + 1
        if not isinstance(key, yaml.ScalarNode):
            remedy = "Write a single word before the colon."
            yield Problem(file, line, dotted(path), "a list or mapping as key", "a word", remedy)
            continue
        below = (*path, key.value)
        if below in lines:
            remedy = f"Rename or remove one of them; the other stands in line {lines[below]}."
            yield Problem(file, line, dotted(below), "the same key twice", "each key once", remedy)
            continue
        lines[below] = line
        yield from _walk(file, value, below, lines)


def _syntax(file: str, error: yaml.MarkedYAMLError) -> Problem:
    mark = error.problem_mark or error.context_mark
    line = mark.line + 1 if mark else 1
    found = str(error.problem or error.context)
    if found == "an alias":
        remedy = "Write the value out where it belongs."
        return Problem(file, line, "(text)", found, "plain values", remedy)
    return Problem(file, line, "(text)", f"a slip ({found})", "YAML", YAML_REMEDY)
