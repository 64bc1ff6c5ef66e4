"""Finds our own modules that a module needs, so that the page carries these and no others."""

import ast
from collections.abc import Iterator
from pathlib import Path

from web.build.packages import BuildError

OURS = ("engine", "web")
HEAVY = ("pydantic", "yaml", "networkx")  # only the author's tools have them


def closure(start: str, root: Path, is_light: bool = True) -> tuple[str, ...]:
    """Return `start` and every module of ours it imports, however indirectly, sorted.

    Raises:
        BuildError: a module that has to be light imports a package that comes later, if at all.

    >>> closure("engine.errors", Path("."))
    ('engine', 'engine.errors')
    """
    found: set[str] = set()
    waiting = [start]
    while waiting:
        module = waiting.pop()
        if module in found:
            continue
        found.add(module)
        waiting.extend(_parents(module))
        for name in _imports(_file(module, root)):
            if is_light:
                _refuse_heavy(module, name)
            waiting.extend(part for part in (name, name.rpartition(".")[0]) if _is_ours(part, root))
    return tuple(sorted(found))


def module_file(module: str, root: Path) -> str:
    """Return the path of a module below `root`, with forward slashes."""
    return _file(module, root).relative_to(root).as_posix()


def _file(module: str, root: Path) -> Path:
    path = root.joinpath(*module.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


def _parents(module: str) -> Iterator[str]:
    parts = module.split(".")
    return (".".join(parts[:n]) for n in range(1, len(parts)))


def _is_ours(name: str, root: Path) -> bool:
    return name.split(".")[0] in OURS and _file(name, root).is_file()


def _imports(path: Path) -> Iterator[str]:
    """Yield the dotted names a file imports, `from a import b` as `a.b`."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def _refuse_heavy(module: str, name: str) -> None:
    if name.split(".")[0] in HEAVY:
        raise BuildError(
            f"{module}: found an import of {name}, expected the standard library only\n"
            "  The page loads this module. Move what needs the import to one that it does not load."
        )
