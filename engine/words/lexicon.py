"""Words that mean the same, as concepts; what a trade calls things comes in from outside."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from engine.words.english import stem

# What a concept is, for grammar:
THING = "thing"  # something that can be there, or be so and so; denied, it is absent
FINE = "fine"  # a good state; denied, it is its opposite
WRONG = "wrong"  # a bad state; denied, that is a denial
EXCHANGE = "exchange"  # hearing somebody: who does it tells the direction
REPORT = "report"  # what others say of the speaker
OTHERS = "others"  # people who are not the speaker
PLAIN = "plain"  # a word of no concept
KINDS = (THING, FINE, WRONG, EXCHANGE, REPORT, OTHERS)


@dataclass(frozen=True, slots=True)
class Concept:
    """One idea and the words for it; `opposite` is the concept that its denial means."""

    kind: str
    words: tuple[str, ...]
    opposite: str = ""


@dataclass(frozen=True, slots=True)
class Lexicon:
    """Concepts by name, and which of them a run of stems stands for."""

    concepts: Mapping[str, Concept]
    runs: Mapping[tuple[str, ...], tuple[str, ...]] = field(repr=False)
    longest: int = 1

    def kind(self, concept: str) -> str:
        """Return the kind of a concept; words of no concept are plain."""
        return self.concepts[concept].kind if concept in self.concepts else PLAIN

    def opposite(self, concept: str) -> str:
        """Return the concept that denying this one means, or an empty text."""
        return self.concepts[concept].opposite if concept in self.concepts else ""


def lexicon(concepts: Mapping[str, Concept]) -> Lexicon:
    """Return concepts ready for look-up; a run of words may stand for several of them."""
    runs: dict[tuple[str, ...], tuple[str, ...]] = {}
    for name, concept in concepts.items():
        for words in concept.words:
            run = stems(words.lower().split())
            runs[run] = (*runs.get(run, ()), name)
    return Lexicon(concepts, runs, max(map(len, runs), default=1))


def stems(words: Iterable[str]) -> tuple[str, ...]:
    """Return the stems of some words."""
    return tuple(map(stem, words))
