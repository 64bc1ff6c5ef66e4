"""Phrases on file, each for one answer to one question, weighed by how rare their concepts are."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from math import log

from engine.words.clauses import clauses
from engine.words.english import STOP, is_negator
from engine.words.lexicon import WRONG, Lexicon
from engine.words.meaning import DENIED, Meaning, meaning

PAIR_SHARE = 0.5  # a pair repeats two concepts that count already
Key = tuple[str, str]  # question, answer


@dataclass(frozen=True, slots=True)
class Question:
    """What may be told without being asked: phrases by answer.

    `sound` is the answer when nothing is wrong: what a denied phrase of another answer means.
    """

    id: str
    sound: str
    phrases: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Filed:
    """One phrase and what it says."""

    key: Key
    text: str
    concepts: frozenset[str]


@dataclass(frozen=True, eq=False)
class Index:
    """All phrases, the weight of every concept in them, and the stems that are no slips."""

    words: Lexicon
    filed: tuple[Filed, ...]
    weights: Mapping[str, float] = field(repr=False)
    known: frozenset[str] = field(repr=False)
    questions: Mapping[str, Question] = field(repr=False)


def index(questions: tuple[Question, ...], words: Lexicon) -> Index:
    """Return the phrases of all questions, ready to be held against messages."""
    known = frozenset(_stems(questions, words))
    filed = tuple(
        each
        for question in questions
        for answer, phrases in question.phrases.items()
        for phrase in phrases
        for each in _filed(question, answer, phrase, words)
    )
    by_id = {question.id: question for question in questions}
    return Index(words, filed, _weights(filed), known, by_id)


def together(meanings: list[Meaning]) -> Meaning:
    """Return what several clauses say between them."""
    names = {name: None for each in meanings for name in each}
    nothing: frozenset[tuple[int, int]] = frozenset()
    return {
        name: frozenset().union(*(each.get(name, nothing) for each in meanings)) for name in names
    }


def _filed(question: Question, answer: str, phrase: str, words: Lexicon) -> Iterator[Filed]:
    """Yield a phrase, and for one that tells of something wrong what denying it would say."""
    said = frozenset(together([meaning(clause, words, ()) for clause in clauses(phrase)]))
    if said:
        yield Filed((question.id, answer), phrase, said)
    wrong = {name for name in said if words.kind(name) == WRONG and not words.opposite(name)}
    if answer != question.sound and wrong:
        denied = frozenset(_denied(name, wrong) for name in said)
        yield Filed((question.id, question.sound), f"not so: {phrase}", denied)


def _denied(name: str, wrong: set[str]) -> str:
    """Return a concept, or a pair, with its bad state denied.

    >>> _denied("sent:hum", {"hum"}), _denied("hum", {"hum"}), _denied("sent", {"hum"})
    ('sent:no:hum', 'no:hum', 'sent')
    """
    thing, _, state = name.rpartition(":")
    if state not in wrong:
        return name
    return f"{thing}:{DENIED}{state}" if thing else f"{DENIED}{state}"


def _weights(filed: tuple[Filed, ...]) -> dict[str, float]:
    """Return the inverse document frequency of every concept; a document is an answer.

    Robertson & Zaragoza, The probabilistic relevance framework: BM25 and beyond, 2009, equation
    3.3 with one added inside the logarithm, so that no concept counts against a phrase; over that
    of a concept of one answer only, which so weighs 1 however many answers there are.
    """
    documents: dict[Key, set[str]] = {}
    for each in filed:
        documents.setdefault(each.key, set()).update(each.concepts)
    holding = Counter(name for concepts in documents.values() for name in concepts)
    total = len(documents)
    return {
        name: _rarity(count, total) / _rarity(1, total) * _share(name)
        for name, count in sorted(holding.items())
    }


def _rarity(count: int, total: int) -> float:
    return log(1.0 + (total - count + 0.5) / (count + 0.5))


def _share(name: str) -> float:
    return PAIR_SHARE if ":" in name.removeprefix(DENIED) else 1.0


def _stems(questions: tuple[Question, ...], words: Lexicon) -> Iterator[str]:
    """Yield all stems that are written in phrases or in the lexicon."""
    for run in words.runs:
        yield from run
    texts = (text for each in questions for several in each.phrases.values() for text in several)
    for clause in (clause for text in texts for clause in clauses(text)):
        for token in clause:
            if token.word not in STOP and not is_negator(token.word):
                yield token.stem
