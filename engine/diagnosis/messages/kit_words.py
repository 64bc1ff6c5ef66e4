"""Which instruments somebody speaks of: to be had, or said not to be there."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from engine.diagnosis.model import SetModel
from engine.words.clauses import Token, clauses
from engine.words.english import is_negator, stem

SCOPE = 5  # as many words after a negator are denied
KIT = frozenset(map(stem, ["instrument", "equipment", "gear", "tool"]))
EVERYTHING = "any"


@dataclass(frozen=True, slots=True)
class AtHand:
    """What a message says is at hand: instruments by id, each with the words it was told in."""

    has: dict[str, str]
    is_nothing: bool  # it says that there is nothing to measure with


def instruments_in(model: SetModel, message: str) -> AtHand:
    """Return the instruments a message says are there; one that is denied anywhere is not."""
    names = {
        tuple(token.stem for clause in clauses(words) for token in clause): instrument.id
        for instrument in model.instruments.values()
        for words in instrument.said
    }
    has: dict[str, str] = {}
    denied: set[str] = set()
    is_nothing = False
    for clause in clauses(message):
        for start, size, name in _named(clause, names):
            words = message[clause[start].start : clause[start + size - 1].end]
            if _is_denied(clause, start):
                denied.add(name)
            else:
                has.setdefault(name, " ".join(words.split()))
        is_nothing = is_nothing or _has_nothing(clause)
    kept = {name: words for name, words in has.items() if name not in denied}
    return AtHand(kept, is_nothing and not kept)


def _named(
    clause: Sequence[Token], names: dict[tuple[str, ...], str]
) -> Iterator[tuple[int, int, str]]:
    """Yield where the longest names begin, of how many words, and whose they are."""
    longest, at = max(map(len, names), default=0), 0
    while at < len(clause):
        sizes = range(min(longest, len(clause) - at), 0, -1)
        runs = ((size, tuple(t.stem for t in clause[at : at + size])) for size in sizes)
        size, run = next(((size, run) for size, run in runs if run in names), (1, ()))
        if run:
            yield at, size, names[run]
        at += size


def _is_denied(clause: Sequence[Token], start: int) -> bool:
    return any(is_negator(token.word) for token in clause[max(0, start - SCOPE) : start])


def _has_nothing(clause: Sequence[Token]) -> bool:
    """Say whether a clause tells of no instruments at all, as in "no test gear here"."""
    places = [at for at, token in enumerate(clause) if token.stem in KIT]
    near = (clause[max(0, at - 3) : at] for at in places)
    return any(_denies_all(words) for words in near)


def _denies_all(words: Sequence[Token]) -> bool:
    """Say whether the words before "gear" or "meter" deny it: "no", or "haven't any"."""
    said = [token.word for token in words]
    return "no" in said or (EVERYTHING in said and any(map(is_negator, said)))
