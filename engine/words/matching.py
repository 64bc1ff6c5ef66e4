"""A message held against all phrases: what it says, how surely, and in which of its words."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from engine.words.clauses import clauses
from engine.words.meaning import IN_ORDER, Meaning, Span, meaning
from engine.words.phrases import Filed, Index, Key, together

STRAY = 0.15  # how much a concept of the clause counts that the phrase has not
HALF = 0.43  # so much weight in common counts half as much as any amount would
ENOUGH = 0.35  # a score below this is no likeness
SURE = 0.44  # and this much is wanted of what would be taken for a denial
RIVAL = 0.75  # of the same words, a reading is kept that scores at least this share of the best
CLAUSES = 3  # as many neighbouring clauses are read as one
MOST = 8


@dataclass(frozen=True, slots=True)
class Candidate:
    """An answer that a message seems to give; `is_there` when it tells of something wrong.

    `score` lies between 0 and 1 and only ranks. `words` are those of the message that led to it,
    `phrase` is what they were held to be like.
    """

    question: str
    answer: str
    is_there: bool
    score: float
    words: str
    phrase: str


@dataclass(frozen=True, slots=True)
class _Likeness:
    score: float
    filed: Filed
    spans: frozenset[Span]


def candidates(message: str, phrases: Index, most: int = MOST) -> tuple[Candidate, ...]:
    """Return the answers a message seems to give, best first, one a question; ties by id.

    Nothing is guessed: a message that is like no phrase gives none.
    """
    best: dict[str, _Likeness] = {}
    for window in _windows(message, phrases):
        for filed in phrases.filed:
            found = _likeness(filed, window, phrases)
            question = filed.key[0]
            if found and (question not in best or _order(found) < _order(best[question])):
                best[question] = found
    kept = _explained(sorted(best.values(), key=_order), phrases)
    return tuple(_candidate(each, message, phrases) for each in kept[:most])


def _explained(ranked: list[_Likeness], phrases: Index) -> list[_Likeness]:
    """Return those that are likely enough, without readings of words that others read better."""
    kept: list[_Likeness] = []
    for found in ranked:
        least = ENOUGH if _is_there(found, phrases) else SURE
        rivals = (other for other in kept if _is_there(other, phrases) == _is_there(found, phrases))
        if found.score >= least and not any(_is_beaten(found, better) for better in rivals):
            kept.append(found)
    return kept


def _is_beaten(found: _Likeness, better: _Likeness) -> bool:
    """Say whether most words of a reading are read much better otherwise."""
    read = [span for span in found.spans if any(_overlap(span, other) for other in better.spans)]
    return 2 * len(read) > len(found.spans) and found.score < RIVAL * better.score


def _overlap(one: Span, other: Span) -> bool:
    return one[0] < other[1] and other[0] < one[1]


def _is_there(found: _Likeness, phrases: Index) -> bool:
    question, answer = found.filed.key
    return answer != phrases.questions[question].sound


def _order(likeness: _Likeness) -> tuple[float, Key, list[Span]]:
    return -round(likeness.score, 9), likeness.filed.key, sorted(likeness.spans)


def _windows(message: str, phrases: Index) -> Iterator[Meaning]:
    """Yield what each clause says, and each run of neighbouring clauses."""
    each = [meaning(clause, phrases.words, phrases.known) for clause in clauses(message)]
    for size in range(1, CLAUSES + 1):
        for first in range(len(each) - size + 1):
            yield together(each[first : first + size])


def _likeness(filed: Filed, window: Meaning, phrases: Index) -> _Likeness | None:
    """Return how like a phrase some clauses are, or None when they are not.

    The ratio model of Tversky, Features of similarity, Psychological Review 84 (4), 1977, over
    weighted concepts, times a term that saturates as in BM25: much in common ranks higher.
    """
    weights = phrases.weights
    shared = filed.concepts & window.keys()
    common = sum(weights[name] for name in sorted(shared))
    if common <= 0.0 or _praised(window) & filed.concepts - _praised(shared):
        return None
    missing = sum(weights[name] for name in sorted(filed.concepts - shared))
    stray = sum(
        weights.get(name, 0.0) for name in sorted(window.keys() - shared) if ":" not in name
    )
    ratio = common / (common + missing + STRAY * stray)
    spans = frozenset(span for name in shared for span in window[name])
    return _Likeness(ratio * common / (common + HALF), filed, spans)


def _praised(concepts: Iterable[str]) -> set[str]:
    """Return the things said to be fine: a phrase that complains of one is contradicted."""
    pairs = (name.partition(":") for name in concepts)
    return {thing for thing, _, state in pairs if state == IN_ORDER}


def _candidate(found: _Likeness, message: str, phrases: Index) -> Candidate:
    question, answer = found.filed.key
    start = min(span[0] for span in found.spans)
    end = max(span[1] for span in found.spans)
    return Candidate(
        question=question,
        answer=answer,
        is_there=_is_there(found, phrases),
        score=round(found.score, 3),
        words=" ".join(message[start:end].split()),
        phrase=found.filed.text,
    )
