"""`dryjoint show`: one thing of the knowledge, as a mechanic would read it."""

import json
from argparse import Namespace
from collections.abc import Callable

from engine.terminal.command import Subparsers
from engine.terminal.knowledge_base import add_kb_option, open_library
from engine.terminal.showing.cause_facts import cause_facts
from engine.terminal.showing.facts import (
    block_facts,
    check_facts,
    family_facts,
    signal_facts,
    symptom_facts,
)
from engine.terminal.showing.opened import Facts, OpenedSet, find, set_of
from engine.terminal.showing.text import facts_text

ABOUT = "Show a family, a block, a cause, a check or a signal, with all that follows from it."


def add_to(subparsers: Subparsers) -> None:
    """Add `show` to the command line."""
    parser = subparsers.add_parser("show", help="show one thing that is known", description=ABOUT)
    parser.add_argument(
        "name",
        metavar="NAME",
        help="a family, a block, or block.name of a cause, check or signal",
    )
    parser.add_argument("--family", metavar="F", help="in this kind of set")
    parser.add_argument("--json", action="store_true", help="everything, for a script")
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print all that is known of one thing, in words or as JSON."""
    library = open_library(args.kb)
    named = find(library, args.name)
    opened = set_of(args.kb, library, named, args.family)
    facts = FACTS[named.kind](opened, named.id)
    print(json.dumps(facts, indent=2, ensure_ascii=False) if args.json else facts_text(facts))
    return 0


def _check(opened: OpenedSet, name: str) -> Facts:
    """Return a check; a symptom with its fault tree."""
    block, _, own = name.partition(".")
    is_symptom = opened.library.blocks[block].checks[own].kind == "symptom"
    return (symptom_facts if is_symptom else check_facts)(opened, name)


FACTS: dict[str, Callable[[OpenedSet, str], Facts]] = {
    "family": family_facts,
    "block": block_facts,
    "cause": cause_facts,
    "check": _check,
    "signal": signal_facts,
}
