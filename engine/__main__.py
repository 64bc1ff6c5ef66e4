"""The command line: `dryjoint`."""

import os
import sys
from argparse import ArgumentParser
from collections.abc import Sequence

from engine.errors import EngineError
from engine.terminal import (
    align,
    ask,
    assess,
    bench,
    build,
    check,
    listing,
    plan,
    prove,
    rank,
    serve,
    show,
)
from engine.terminal.command import Command
from engine.terminal.knowledge_base import UsageError

COMMANDS: tuple[Command, ...] = (
    ask,
    rank,
    align,
    prove,
    check,
    listing,
    show,
    plan,
    build,
    serve,
    assess,
    bench,
)
ABOUT = "Find the failed part or the mis-set adjustment in an old two-way radio."
FINE, PROBLEMS, USAGE = 0, 1, 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one sub-command; return 0 when all is fine, 1 for problems, 2 for a wrong command."""
    args = _parser().parse_args(arguments)
    try:
        code: int = args.run(args)
        sys.stdout.flush()
    except UsageError as error:
        print(f"dryjoint: {error}", file=sys.stderr)
        return USAGE
    except EngineError as error:
        print(error, file=sys.stderr)
        return PROBLEMS
    except BrokenPipeError:  # whoever reads the output has seen enough, as in `| head`
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    return code


def _parser() -> ArgumentParser:
    parser = ArgumentParser(prog="dryjoint", description=ABOUT)
    subparsers = parser.add_subparsers(required=True, metavar="COMMAND")
    for command in COMMANDS:
        command.add_to(subparsers)
    return parser


if __name__ == "__main__":
    sys.exit(main())
