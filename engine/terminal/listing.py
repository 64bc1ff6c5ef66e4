"""`dryjoint list`: what the knowledge base holds."""

import json
from argparse import Namespace
from collections.abc import Mapping

from engine.errors import suggest
from engine.knowledge.library import Library
from engine.knowledge.schema import Block
from engine.terminal.columns import columns
from engine.terminal.command import Subparsers
from engine.terminal.entries import KINDS, Entry
from engine.terminal.knowledge_base import UsageError, add_kb_option, open_library

ABOUT = "List what the knowledge base holds. Ids of causes, checks and signals are block.name."
COLUMNS = {
    "families": ("id", "title", "channels", "rules"),
    "symptoms": ("id", "asks"),
    "checks": ("id", "kind", "minutes", "lid", "mode", "answer", "title"),
    "causes": ("id", "kind", "title"),
    "blocks": ("id", "causes", "checks", "title"),
    "instruments": ("id", "units", "title"),
    "signals": ("id", "carries", "states", "title"),
    "cautions": ("id", "title"),
}


def add_to(subparsers: Subparsers) -> None:
    """Add `list` to the command line."""
    parser = subparsers.add_parser("list", help="list what is known", description=ABOUT)
    parser.add_argument("kind", choices=KINDS, metavar="KIND", help=", ".join(KINDS))
    parser.add_argument("--family", metavar="F", help="only what belongs to this kind of set")
    parser.add_argument("--json", action="store_true", help="everything, for a script")
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print the entries of one kind, as an aligned table or as JSON."""
    library = open_library(args.kb)
    entries = list(KINDS[args.kind](library, _blocks(library, args.family)))
    if args.json:
        print(json.dumps(entries, indent=2, ensure_ascii=False))
    else:
        head = COLUMNS[args.kind]
        print(columns(head, [[_cell(entry, key) for key in head] for entry in entries]))
    return 0


def _blocks(library: Library, family: str | None) -> Mapping[str, Block]:
    """Return the blocks of one family, or all."""
    if family is None:
        return library.blocks
    if family not in library.families:
        raise UsageError(f"no family '{family}'. {suggest(family, library.families)}")
    return library.of(family).blocks


def _cell(entry: Entry, key: str) -> object:
    """Return what stands in one cell of the table."""
    if key == "answer":
        return entry["unit"] or "/".join(entry["outcomes"])
    value = entry.get(key, "")
    return " ".join(value) if isinstance(value, list | tuple) else value
