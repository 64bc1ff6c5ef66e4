"""Questions at the terminal whose answers stand in a list: numbers, yes or no, or a slip."""

from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")

EVERYTHING = ("all", "everything")
NOTHING = ("", "none", "nothing")


def read_line(prompt: str) -> str:
    """Return what is typed, without spaces about it; the end of the input is `stop`."""
    try:
        return input(prompt).strip()
    except EOFError:
        return "stop"


def picked(items: Sequence[T], text: str) -> list[T]:
    """Return the items whose numbers, from 1, stand in a line; other words are passed over."""
    numbers = [int(word) for word in _words(text) if word.isdecimal()]
    return [items[number - 1] for number in numbers if 0 < number <= len(items)]


def choose(prompt: str, items: Sequence[T], may_be_all: bool) -> list[T] | None:
    """Return the items whose numbers are typed, None at `stop`; a slip is told and asked again."""
    while True:
        text = read_line(prompt).lower()
        if text == "stop":
            return None
        answer = chosen(text, items, may_be_all)
        if answer is not None:
            return answer


def chosen(text: str, items: Sequence[T], may_be_all: bool) -> list[T] | None:
    """Return the items that a line in lower case names; None after telling a slip in it."""
    if text in NOTHING:
        return []
    if may_be_all and text in EVERYTHING:
        return [*items]
    known = {str(number) for number in range(1, len(items) + 1)}
    slips = [word for word in _words(text) if word not in known]
    if not slips:
        return picked(items, text)
    every = "'all', " if may_be_all else ""
    print(f"Not understood: {', '.join(slips)}. Numbers from 1 to {len(items)}, {every}", end="")
    print("nothing, or stop.")
    return None


def is_yes(prompt: str) -> bool | None:
    """Return whether yes is typed, None at `stop`; anything else is asked again."""
    while True:
        text = read_line(prompt).lower()
        if text == "stop":
            return None
        if text in ("y", "yes", "n", "no"):
            return text.startswith("y")
        print(f"Not understood: {text or 'nothing'}. Type yes, no or stop.")


def _words(text: str) -> list[str]:
    return text.replace(",", " ").split()
