"""A message cut into clauses of tokens that know where they stood."""

import re
from dataclasses import dataclass
from itertools import pairwise

from engine.words.english import BREAKS, NUMERALS, STARTERS, stem

TOKEN = re.compile(r"no[ -]one\b|[a-z]+(?:'[a-z]+)?|\d+(?:\.\d+)?|[.,;:!?()\n\u2013\u2014]")
MARKS = frozenset(".,;:!?()\n\u2013\u2014")
NO_ONE = ("no one", "no-one")
FIGURE = "number"  # every figure reads as this word, and so do numerals


@dataclass(frozen=True, slots=True)
class Token:
    """A word of a message; `start` and `end` are its place there, `stem` is what is compared."""

    word: str
    stem: str
    start: int
    end: int


def clauses(message: str) -> list[list[Token]]:
    """Return the words of each clause, in order; empty clauses are left out.

    >>> [[t.word for t in c] for c in clauses("Receives fine, but nobody hears me.")]
    [['receives', 'fine'], ['nobody', 'hears', 'me']]
    """
    found: list[list[Token]] = [[]]
    tokens = [*_tokens(message)]
    for token, following in pairwise([*tokens, None]):
        assert token is not None
        if token.word in MARKS or token.word in BREAKS or _ends(token, following):
            found.append([])
        else:
            found[-1].append(token)
    return [clause for clause in found if clause]


def _tokens(message: str) -> list[Token]:
    text = message.lower().replace("\u2019", "'")
    found = [(_word(match[0]), match) for match in TOKEN.finditer(text)]
    return [Token(word, stem(word), match.start(), match.end()) for word, match in found]


def _word(written: str) -> str:
    """Return a word as it is compared, all figures alike."""
    if written in NO_ONE:
        return "noone"
    return FIGURE if written[0].isdigit() or written in NUMERALS else written


def _ends(token: Token, following: Token | None) -> bool:
    return token.word == "and" and following is not None and following.word in STARTERS
