"""`dryjoint check`: the knowledge is right, or everything that is wrong with it."""

from argparse import Namespace
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from engine.errors import KnowledgeError, Problem
from engine.knowledge.census import census
from engine.knowledge.draft import ELSEWHERE, Draft, name_of, place_of
from engine.knowledge.editors import write_schemas
from engine.knowledge.library import Library, examine, load, read_texts, version_of
from engine.knowledge.reading import read_text
from engine.terminal.columns import columns
from engine.terminal.command import Subparsers
from engine.terminal.deep import Section, deep_text, sections
from engine.terminal.knowledge_base import (
    BESIDE_THE_PACKAGE,
    UsageError,
    knowledge_base,
    knowledge_base_around,
    located,
)

ABOUT = "Check the knowledge base, or one file of it against the rest."


def add_to(subparsers: Subparsers) -> None:
    """Add `check` to the command line."""
    parser = subparsers.add_parser("check", help="check the knowledge base", description=ABOUT)
    parser.add_argument(
        "path",
        type=Path,
        nargs="?",
        default=BESIDE_THE_PACKAGE,
        metavar="PATH",
        help="a knowledge base, or one of its files (default: the one beside the program)",
    )
    parser.add_argument(
        "--schema", type=Path, metavar="DIR", help="write JSON Schemas for editors and stop"
    )
    parser.add_argument(
        "--deep", action="store_true", help="also note what right knowledge still cannot tell"
    )
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print the counts when all is right; raise KnowledgeError when it is not."""
    if args.schema is not None:
        for path in write_schemas(args.schema):
            print(path)
        return 0
    if args.path.is_file():
        if args.deep:
            raise UsageError(f"{args.path}: --deep needs a whole knowledge base")
        return _check_file(args.path)
    if not args.path.exists():
        raise UsageError(f"{args.path}: no such file or directory")
    return _check_directory(knowledge_base(args.path), args.deep)


def _check_directory(directory: Path, deep: bool) -> int:
    texts = read_texts(directory)
    draft, problems = examine(texts)
    if problems:
        raise KnowledgeError(located(problems, directory))
    print(f"{directory}: all right, version {version_of(texts)}")
    print(columns(("kind", "number"), _counts(draft)))
    if deep:
        print(deep_text(_located_sections(load(texts), draft, directory)))
    return 0


def _located_sections(library: Library, draft: Draft, directory: Path) -> Iterator[Section]:
    """Yield what is noted, with paths that an editor can open from here."""
    for section in sections(library, draft):
        yield replace(section, notes=tuple(located(section.notes, directory)))


def _counts(draft: Draft) -> list[tuple[str, int]]:
    counted = census(page.model for page in draft.blocks().values())
    checks = {kind: number for kind, number in counted.checks.items() if kind != "symptom"}
    return [
        ("families", len(draft.families())),
        ("plans", len(draft.plans())),
        ("blocks", counted.blocks),
        ("causes", sum(counted.causes.values())),
        *_by_kind(counted.causes),
        ("symptoms", counted.checks.get("symptom", 0)),
        ("checks", sum(checks.values())),
        *_by_kind(checks),
    ]


def _by_kind(numbers: Mapping[str, int]) -> list[tuple[str, int]]:
    return [(f"  {kind}", number) for kind, number in sorted(numbers.items())]


def _check_file(path: Path) -> int:
    """Report what concerns one file; say how many problems there are beside it."""
    directory = knowledge_base_around(path) or BESIDE_THE_PACKAGE
    file = _place(path, directory)
    if file.startswith(ELSEWHERE):
        raise UsageError(f"{path}: a case; `dryjoint rank` reads those")
    texts = read_texts(directory)
    if path.resolve() != (directory / file).resolve():
        texts[file] = read_text(path)
    problems = examine(texts)[1]
    own = [problem for problem in problems if _concerns(problem, file)]
    beside = len(problems) - len(own)
    if own:
        print(f"{path}: {_number(len(own))}; {beside} in other files")
        raise KnowledgeError(located(own, directory))
    print(f"{path}: all right" + (f"; {_number(beside)} in other files" if beside else ""))
    return 0


def _number(problems: int) -> str:
    return "1 problem" if problems == 1 else f"{problems} problems"


def _place(path: Path, directory: Path) -> str:
    """Return where a file stands, or would stand, below a knowledge base."""
    if path.resolve().is_relative_to(directory.resolve()):
        return path.resolve().relative_to(directory.resolve()).as_posix()
    return place_of(path.resolve().as_posix(), read_text(path))


def _concerns(problem: Problem, file: str) -> bool:
    """Whether a problem is in `file`, or where a family lists and wires this block."""
    block = name_of(file)
    listed = any(
        problem.path == start or problem.path.startswith(f"{start}.")
        for start in (f"blocks.{block}", f"wiring.{block}")
    )
    about_block = file.startswith("blocks/") and problem.file.startswith("families/") and listed
    return problem.file == file or about_block
