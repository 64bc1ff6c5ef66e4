"""A message cut into clauses of tokens that know where they stood."""

import re
from dataclasses import dataclass
from itertools import pairwise

from engine.words.english import BREAKS, STARTERS, stem

TOKEN = re.compile(r"[a-z]+(?:'[a-z]+)?|\d+(?:\.\d+)?|[.,;:!?()\n\u2013\u2014]")
MARKS = frozenset(".,;:!?()\n\u2013\u2014")
FIGURE = "number"  # every figure reads as this word


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
    text = message.lower().replace("\u2019", "'").replace("no one", "no-one")
    text = text.replace("no-one", "noone ")  # as long as it was, so that places stay right
    return [
        Token(word, stem(word), match.start(), match.end())
        for match in TOKEN.finditer(text)
        for word in (FIGURE if match[0][0].isdigit() else match[0],)
    ]


def _ends(token: Token, following: Token | None) -> bool:
    return token.word == "and" and following is not None and following.word in STARTERS
