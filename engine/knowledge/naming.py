"""How a name that nothing answers to is reported."""

from collections.abc import Collection, Iterator

from engine.errors import Problem, suggest
from engine.knowledge.reading import Source
from engine.knowledge.wording import Path, shown


def unknown(
    source: Source, path: Path, name: str, known: Collection[str], expected: str
) -> Iterator[Problem]:
    """Yield a problem when `name` is not among `known`, with what was likely meant."""
    if name not in known:
        yield source.problem(path, shown(name), expected, suggest(name, known))


def listed(names: Collection[str]) -> str:
    """Return names as an author writes a list.

    >>> listed(("right", "low"))
    '[right, low]'
    """
    return f"[{', '.join(names)}]"
