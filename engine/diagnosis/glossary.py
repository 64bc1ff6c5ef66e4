"""The glossary as the page loads it: kept as text, found in sentences."""

import json
import re
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from functools import cached_property


@dataclass(frozen=True, slots=True)
class Term:
    """One idea: the words for it, the usual one first, and what it is."""

    id: str
    words: tuple[str, ...]
    means: str


@dataclass(frozen=True)
class Terms:
    """All terms, and where they stand in a text."""

    terms: tuple[Term, ...] = ()

    @cached_property
    def _by_word(self) -> dict[str, Term]:
        return {_key(word): term for term in self.terms for word in term.words}

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        """Return what finds a word or its plural in text of small letters; longer ones first."""
        words = {word.lower() for term in self.terms for word in term.words}
        spelt = "|".join(map(re.escape, sorted(words, key=lambda word: (-len(word), word))))
        return re.compile(rf"\b(?<!-)(?:{spelt})(?:s|es)?(?![\w-])")

    def find(self, text: str) -> Iterator[tuple[int, int, Term]]:
        """Yield where a term begins and ends in `text`, and which it is; in order.

        >>> terms = Terms((Term("fuse", ("fuse",), "A thin wire that melts."),))
        >>> [(start, end, term.id) for start, end, term in terms.find("Two fuses, no refuse.")]
        [(4, 9, 'fuse')]
        """
        if not self.terms:
            return
        for found in self._pattern.finditer(text.lower()):
            word = text[found.start() : found.end()]
            tries = (word, word.removesuffix("s"), word.removesuffix("es"))
            term = next((self._by_word[_key(w)] for w in tries if _key(w) in self._by_word), None)
            if term is not None:
                yield found.start(), found.end(), term


def _key(word: str) -> str:
    return word if word.isupper() else word.lower()


def dump_terms(terms: Terms) -> str:
    """Return the terms as JSON text."""
    return json.dumps([asdict(each) for each in terms.terms], separators=(",", ":"))


def load_terms(text: str) -> Terms:
    """Return the terms that `dump_terms` wrote."""
    return Terms(
        tuple(Term(**{**each, "words": tuple(each["words"])}) for each in json.loads(text))
    )
