"""What a sub-command is."""

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from typing import Protocol


class Subparsers(Protocol):
    """What argparse hands out to add sub-commands to."""

    def add_parser(self, name: str, *, help: str, description: str) -> ArgumentParser:
        """Return the parser of a new sub-command."""


class Command(Protocol):
    """A module that holds one sub-command."""

    def add_to(self, subparsers: Subparsers) -> None:
        """Add the sub-command, with `run` as its default for `run`."""

    def run(self, args: Namespace) -> int:
        """Carry it out and return the exit code."""


def count(text: str) -> int:
    """Return a number of things given on the command line: whole, and 0 or more."""
    if not text.isdecimal():
        raise ArgumentTypeError(f"found '{text}', expected a whole number, 0 or more")
    return int(text)
