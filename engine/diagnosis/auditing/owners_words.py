"""What an owner reads who has never opened a set: trade words in it, and how hard it is to read."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from engine.diagnosis.auditing.reading_ease import WORD, reading_ease
from engine.knowledge.library import Library
from engine.knowledge.schema import Check

FLOOR = 60.0  # Flesch calls 60 to 70 standard, and what is below fairly difficult
SHORTEST = 12  # words; a shorter text is no measure of anything
OWNERS = ("symptom", "question")  # answered by whoever brings the set
TRADE = """
    af agc alc amplitude anode attenuator bias cathode choke collector decoupling demodulator
    deviation diode discriminator electrolytic emitter harmonic heterodyne impedance inductance
    interstage modulation modulator oscillator pll quadrature quiescent rectifier regulator
    resonance rf ripple sideband sinad synthesiser tantalum transistor trimmer varactor vco zener
"""
TRADE_WORDS = frozenset(TRADE.split())
PRINTED = frozenset({"sideband"})  # what a mode switch is marked with, whoever owns one has read


@dataclass(frozen=True, slots=True)
class TradeWords:
    """Words in one text of a check that its reader cannot know."""

    check: str
    field: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HardText:
    """A text that is hard to read; `ease` is Flesch's, higher is easier."""

    check: str
    field: str
    ease: float


def trade_words(library: Library) -> Iterator[TradeWords]:
    """Yield the texts that hold trade words, in order of the knowledge.

    A word that is followed by an explanation in brackets is known by then, and so is one that is
    printed on the set, if the glossary says what it is.
    """
    hard = TRADE_WORDS - (PRINTED & _glossed(library))
    for name, field, text in owners_texts(library):
        found = tuple(dict.fromkeys(_unexplained(text, hard)))
        if found:
            yield TradeWords(name, field, found)


def hard_texts(library: Library) -> tuple[HardText, ...]:
    """Return the texts below the floor of reading ease, hardest first."""
    graded = (
        HardText(name, field, reading_ease(text))
        for name, field, text in owners_texts(library)
        if len(WORD.findall(text)) >= SHORTEST
    )
    hard = (text for text in graded if text.ease < FLOOR)
    return tuple(sorted(hard, key=lambda text: (round(text.ease, 6), text.check, text.field)))


def owners_texts(library: Library) -> Iterator[tuple[str, str, str]]:
    """Yield check, field and text of all an owner is shown.

    That is `plain` of every check, and the question of what an owner answers with the answers.
    """
    for block_id, block in library.blocks.items():
        for name, check in block.checks.items():
            if check.plain:
                yield f"{block_id}.{name}", "plain", check.plain
            if check.kind in OWNERS:
                yield f"{block_id}.{name}", "asks", _asked(check)


def _asked(check: Check) -> str:
    answers = (f"{outcome.title}." for outcome in check.outcomes.values())
    return " ".join((check.asks, *answers))


def _glossed(library: Library) -> frozenset[str]:
    terms = library.glossary.terms.values() if library.glossary else ()
    return frozenset(word.lower() for term in terms for word in term.words)


def _unexplained(text: str, hard: frozenset[str]) -> Iterator[str]:
    for found in re.finditer(r"[A-Za-z]+", text):
        word = found.group().lower()
        is_hard = bool({word, word.removesuffix("s")} & hard)
        if is_hard and not text[found.end() :].startswith(" ("):
            yield word
