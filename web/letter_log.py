"""What the log of a case says of letters: the owner's message, what was asked, what came back."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

LETTER_INPUTS = ("message", "asked", "reply")


@dataclass(frozen=True, slots=True)
class Posted:
    """One letter: to the owner with the checks asked for, or a reply with those it answered."""

    is_reply: bool
    at: str  # local time
    checks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Letters:
    """What was written to and fro: the owner's message, the checks asked for, the replies.

    A check asked for is known by its place, from 1, for as long as the case lasts. `post` has the
    letters in the order they went and came.
    """

    message: str = ""
    asked: tuple[str, ...] = ()
    replies: tuple[str, ...] = ()
    post: tuple[Posted, ...] = ()


def letters_after(letters: Letters, given: Mapping[str, Any]) -> Letters:
    """Return the letters after one input; the same questions once more are no new letter."""
    at = str(given.get("at", ""))
    if given["do"] == "message":
        return replace(letters, message=given["text"])
    if given["do"] == "asked":
        fresh = tuple(check for check in given["checks"] if check not in letters.asked)
        post = (*letters.post, *([Posted(False, at, fresh)] if fresh else []))
        return replace(letters, asked=(*letters.asked, *fresh), post=post)
    answered = tuple(check for check, _ in given["answers"])
    post = (*letters.post, Posted(True, at, answered))
    return replace(letters, replies=(*letters.replies, given["text"]), post=post)
