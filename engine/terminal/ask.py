"""`dryjoint ask`: one check after the other, until there is something to act on."""

from argparse import Namespace
from pathlib import Path

from engine.diagnosis.case import Case, full_kit
from engine.diagnosis.model import SetModel
from engine.errors import suggest
from engine.terminal.command import Subparsers
from engine.terminal.conversation import Conversation
from engine.terminal.knowledge_base import UsageError, add_kb_option
from engine.terminal.models import families, open_model
from engine.terminal.rank import load_document
from engine.terminal.visits import opened_file

INTERRUPTED = 130  # what a shell reports after Ctrl-C
ABOUT = "Work through a case question by question. Type help to see what can be typed."


def add_to(subparsers: Subparsers) -> None:
    """Add `ask` to the command line."""
    parser = subparsers.add_parser("ask", help="work through a case", description=ABOUT)
    parser.add_argument("case", type=Path, nargs="?", metavar="CASE", help="go on with a case file")
    parser.add_argument("--family", metavar="F", help="the kind of set, when there are several")
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Hold the conversation; what was found is printed, and saved when asked for."""
    try:
        _hold(args)
    except (KeyboardInterrupt, EOFError):  # EOFError: the input ended before there was a set
        print("\nStopped. What was not saved is gone.")
        return INTERRUPTED
    return 0


def _hold(args: Namespace) -> None:
    def opener(family: str) -> SetModel | None:
        return open_model(args.kb, family)

    if args.case:
        model, case, document = load_document(args.case, args.kb)
        opened = opened_file(model, case, document, args.case)
        Conversation(model, case, opened, opener).go_on()
        return
    known = families(args.kb)
    family = args.family or _choose(known)
    chosen = open_model(args.kb, family)
    if chosen is None:
        raise UsageError(f"no family '{family}'. {suggest(family, known)}")
    Conversation(chosen, Case(family, full_kit(chosen)), None, opener).begin()


def _choose(names: list[str]) -> str:
    """Return the only kind of set there is, or the one that is chosen."""
    if len(names) == 1:
        return names[0]
    for number, name in enumerate(names, start=1):
        print(f"{number:3}  {name}")
    while True:
        text = input("Which kind of set? ").strip()
        if text.isdecimal() and 0 < int(text) <= len(names):
            return names[int(text) - 1]
        print(f"A number from 1 to {len(names)}.")
