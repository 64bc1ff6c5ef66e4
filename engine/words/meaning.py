"""What a clause says: its concepts, which of them are denied, and who hears whom."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product

from engine.words.clauses import Token
from engine.words.english import BARELY, BEING, NO_ONE, OBJECT, SPEAKER, STOP, is_negator
from engine.words.lexicon import EXCHANGE, FINE, OTHERS, PLAIN, REPORT, THING, WRONG, Lexicon
from engine.words.slips import mended

ABSENT, WEAK = "absent", "weak"  # concepts that grammar alone can bring in
SENT, RECEIVED = "sent", "received"
IN_ORDER = "fine"  # said of a thing, it contradicts whatever complains of that thing
DENIED = "no:"
SCOPE = 5  # as many words after a negator are denied, as in NegEx (see `_deny`)
Span = tuple[int, int]
Meaning = dict[str, frozenset[Span]]  # what is said, and where in the message


@dataclass(frozen=True, slots=True)
class Mark:
    """One concept in a clause; `first` and `last` count tokens, `span` letters."""

    concept: str
    kind: str
    first: int
    last: int
    span: Span


def meaning(clause: Sequence[Token], words: Lexicon, known: Collection[str]) -> Meaning:
    """Return the concepts of a clause, and each thing with each state as `thing:state`.

    Words that are not among `known` stems are taken for slips of a known one where one is near.
    """
    tokens = [_mended(token, known) for token in clause]
    marks = [*_marks(tokens, words)]
    marks = [mark for each in marks for mark in _directed(each, marks, tokens)]
    marks = _deny(marks, tokens, words)
    found: dict[str, set[Span]] = {}
    for mark in marks:
        if mark.kind != OTHERS:
            found.setdefault(mark.concept, set()).add(mark.span)
    things = [mark for mark in marks if mark.kind == THING]
    states = [mark for mark in marks if mark.kind in (FINE, WRONG)]
    for thing, state in product(things, states):
        found.setdefault(f"{thing.concept}:{state.concept}", set()).update((thing.span, state.span))
    return {concept: frozenset(spans) for concept, spans in found.items()}


def _mended(token: Token, known: Collection[str]) -> Token:
    if token.stem in known or token.word in STOP or is_negator(token.word):
        return token
    return replace(token, stem=mended(token.stem, known))


def _marks(tokens: Sequence[Token], words: Lexicon) -> Iterator[Mark]:
    """Yield the concepts of the longest runs of words that stand for any, and the other words."""
    at = 0
    while at < len(tokens):
        size, concepts = _longest(tokens, at, words)
        span = (tokens[at].start, tokens[at + size - 1].end)
        for concept in concepts:
            yield Mark(concept, words.kind(concept), at, at + size - 1, span)
        if not concepts:
            yield from _without_concept(tokens[at], at)
        at += size


def _longest(tokens: Sequence[Token], at: int, words: Lexicon) -> tuple[int, tuple[str, ...]]:
    for size in range(min(words.longest, len(tokens) - at), 0, -1):
        run = tuple(token.stem for token in tokens[at : at + size])
        if run in words.runs:
            return size, words.runs[run]
    return 1, ()


def _without_concept(token: Token, at: int) -> Iterator[Mark]:
    span = (token.start, token.end)
    if token.word in NO_ONE:
        yield Mark(token.word, OTHERS, at, at, span)
    elif token.word in BARELY:
        yield Mark(WEAK, WRONG, at, at, span)
    elif token.word not in STOP and not is_negator(token.word):
        yield Mark(token.stem, PLAIN, at, at, span)


def _directed(mark: Mark, marks: Sequence[Mark], tokens: Sequence[Token]) -> Iterator[Mark]:
    """Yield a mark, or for an exchange or a report the side that it tells of."""
    if mark.kind == REPORT:
        yield replace(mark, concept=SENT, kind=THING)
    elif mark.kind == EXCHANGE:
        is_sent = _is_about_speaker(mark, marks, tokens)
        yield replace(mark, concept=SENT if is_sent else RECEIVED, kind=THING)
    else:
        yield mark


def _is_about_speaker(verb: Mark, marks: Sequence[Mark], tokens: Sequence[Token]) -> bool:
    """Say whether others hear the speaker ("hears me", "I am heard", "they can hear")."""
    here = tokens[verb.first : verb.last + 3]
    if any(token.word in OBJECT for token in here):
        return True
    people = {mark.first for mark in marks if mark.kind == OTHERS}
    for at in range(verb.first - 1, -1, -1):
        if tokens[at].word in SPEAKER:
            between = {token.word for token in tokens[at : verb.first]}
            return bool(between & BEING)
        if at in people:
            return True
    return False


def _deny(marks: list[Mark], tokens: Sequence[Token], words: Lexicon) -> list[Mark]:
    """Return the marks as they stand once each negator has done its work.

    A negator reaches some words forward, not past its clause or the next negator: Chapman and
    others, A simple algorithm for identifying negated findings and diseases in discharge
    summaries, Journal of Biomedical Informatics 34 (5), 2001.
    """
    named = [mark for mark in marks if mark.kind != OTHERS]
    inside = {at for mark in named for at in range(mark.first, mark.last + 1)}
    negators = [
        at for at, token in enumerate(tokens) if at not in inside and is_negator(token.word)
    ]
    for at, following in pairwise([*negators, len(tokens)]):
        scope = [mark for mark in marks if at < mark.first < following][:SCOPE]
        marks = _denied(marks, scope, at, tokens[at], words)
    return marks


def _denied(
    marks: list[Mark], scope: list[Mark], at: int, negator: Token, words: Lexicon
) -> list[Mark]:
    """Return the marks after one negator: what it makes of those in its scope.

    Nearest state first: a good one turns into its opposite, bad ones are denied; where there is
    none, what is spoken of is absent.
    """
    states = [mark for mark in scope if mark.kind in (FINE, WRONG)]
    if not states:
        return [*marks, Mark(ABSENT, WRONG, at, at, (negator.start, negator.end))]
    turned = states[:1] if states[0].kind == FINE else [m for m in states if m.kind == WRONG]
    return [_turned(mark, negator, words) if mark in turned else mark for mark in marks]


def _turned(mark: Mark, negator: Token, words: Lexicon) -> Mark:
    """Return a state denied, from its negator to its end."""
    span = (negator.start, mark.span[1])
    opposite = words.opposite(mark.concept)
    if opposite:
        return replace(mark, concept=opposite, kind=words.kind(opposite), span=span)
    return replace(mark, concept=DENIED + mark.concept, span=span)
