"""Where the knowledge base is on this machine, and how the terminal speaks of its files."""

from argparse import ArgumentParser
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from engine.errors import EngineError, KnowledgeError, Problem
from engine.knowledge.library import Library, read_library

BESIDE_THE_PACKAGE = Path(__file__).resolve().parents[2] / "kb"
MARKS = ("sources.yaml", "blocks", "tables")


class UsageError(EngineError):
    """The command line names something that is not there: whoever typed it must act."""


def add_kb_option(parser: ArgumentParser) -> None:
    """Let a sub-command work on another knowledge base, as `args.kb`."""
    parser.add_argument(
        "--kb", type=Path, default=BESIDE_THE_PACKAGE, metavar="DIR", help="knowledge base to use"
    )


def open_library(directory: Path) -> Library:
    """Return the knowledge base in `directory`.

    Raises:
        UsageError: it is no knowledge base.
        KnowledgeError: it has problems; their files are named as seen from here.
    """
    try:
        return read_library(knowledge_base(directory))
    except KnowledgeError as error:
        raise KnowledgeError(located(error.problems, directory)) from None


def knowledge_base(directory: Path) -> Path:
    """Return `directory`, or raise UsageError when it is no knowledge base."""
    if not directory.is_dir():
        raise UsageError(f"{directory}: no such directory")
    if not any((directory / mark).exists() for mark in MARKS):
        raise UsageError(f"{directory}: no knowledge base; none of {', '.join(MARKS)} in it")
    return directory


def knowledge_base_around(file: Path) -> Path | None:
    """Return the knowledge base that `file` stands in, if it does."""
    return next((one for one in file.resolve().parents if (one / MARKS[0]).exists()), None)


def located(problems: Iterable[Problem], directory: Path) -> list[Problem]:
    """Return problems with paths that an editor can open from the current directory."""
    here = Path.cwd()
    base = directory.resolve()
    shown = base.relative_to(here) if base.is_relative_to(here) else base
    return [replace(problem, file=(shown / problem.file).as_posix()) for problem in problems]
