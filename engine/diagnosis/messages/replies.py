"""A reply to numbered questions, as people write it: `1b 2a 3 12.4 V`, or words after a number."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from engine.diagnosis.case import CANNOT_CHECK
from engine.diagnosis.entry import read_answer
from engine.diagnosis.messages.reply_words import outcome_meant
from engine.diagnosis.model import CheckText, SetModel
from engine.errors import UnknownReading

LETTERS = "abcdefghijklmnopqrstuvwxyz"
NUMBER = r"(\d{1,2})(?![\d,])(\s*(?:[):=]|\.(?!\d))|[-\u2013])?\s*"
NUMBERED = re.compile(rf"(?<![\w.,/:-])(?:question\s*|q\.?\s*)?{NUMBER}", re.I)
GLUED = re.compile(NUMBER)  # straight behind another answer, as in 1b2a
LETTER = re.compile(r"([a-z?])(?![a-z'’?])", re.I)
BREAK = re.compile(r"\s*(?:$|[.,;:()/!–—-]|\d|and\b|question\b|q\d)", re.I)
READING = re.compile(r"[-+−]?\d+(?:[.,]\d+)?(?:\s*[:/]\s*\d+)?(\s*[a-zµμΩ%°]+)?", re.I)
QUOTED = re.compile(r"\s*[>|]")
INTRODUCES = re.compile(r".*\bwrote:\s*$", re.I)
FORWARDED = re.compile(r"\s*(?:-{2,}\s*original message|_{10,}\s*$)", re.I)
DIGIT = re.compile(r"\d")
FIGURES = re.compile(r"\d+(?:[.,]\d+)?")
TWICE = "Answered twice, and not alike."


@dataclass(frozen=True, slots=True)
class ReadAnswer:
    """What was answered to a question: `said` as it can be entered, `words` as it was written."""

    number: int
    check: str
    said: str
    words: str


@dataclass(frozen=True, slots=True)
class Unclear:
    """Words that seem to answer a question and cannot be used, and why."""

    number: int
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class Reply:
    """What a reply says; `rest` are the words that belong to no question."""

    answers: tuple[ReadAnswer, ...]
    unclear: tuple[Unclear, ...]
    rest: str


@dataclass(frozen=True, slots=True)
class _Piece:
    """One answer as it stands in a line: `letter` and `reading` are None when it is in words."""

    number: int
    start: int
    end: int
    letter: str | None = None
    reading: str | None = None


def letter_of(check: CheckText, outcome: str) -> str:
    """Return the letter of an answer; the last one is that it could not be checked."""
    return LETTERS[[*check.outcomes, CANNOT_CHECK].index(outcome)]


def read_reply(model: SetModel, asked: Sequence[str], text: str) -> Reply:
    """Return the answers in a reply to the checks `asked`, which are numbered from 1.

    Quoted lines are left aside. Nothing is guessed: what fits no answer is told as unclear, and a
    question whose letters are all there was sent back, not answered.
    """
    found: list[ReadAnswer | Unclear] = []
    rest: list[str] = []
    for line in own_lines(text):
        pieces = [*_pieces(model, asked, line)]
        ends = [piece.start for piece in pieces[1:]] + [len(line)]
        rest.append(line[: pieces[0].start] if pieces else line)
        for piece, end in zip(pieces, ends[: len(pieces)], strict=True):
            found.append(_read(model, asked, piece, line[piece.start : end], line[piece.end : end]))
            if piece.letter or piece.reading:
                rest.append(line[piece.end : end].strip(" .,;:()"))
    answers, unclear = _agreed(model, found)
    return Reply(answers, unclear, "\n".join(part for part in rest if part.strip()).strip())


def own_lines(text: str) -> list[str]:
    """Return the lines that were written, without those quoted from an earlier message."""
    lines = text.replace("\u00a0", " ").splitlines()
    kept = []
    for line, following in zip(lines, [*lines[1:], ""], strict=True):
        if FORWARDED.match(line):
            break
        is_quoted = QUOTED.match(line)
        introduces = INTRODUCES.match(line) and (not following.strip() or QUOTED.match(following))
        if not is_quoted and not introduces:
            kept.append(line)
    return kept


def _pieces(model: SetModel, asked: Sequence[str], line: str) -> Iterator[_Piece]:
    """Yield the answers of a line, in order."""
    at, last = 0, None
    while found := (last and GLUED.match(line, at)) or NUMBERED.search(line, at):
        piece = _piece(model, asked, line, found, last)
        at = piece.end if piece else found.end(1)
        last = piece or last
        if piece:
            yield piece


def _piece(
    model: SetModel, asked: Sequence[str], line: str, found: re.Match[str], last: _Piece | None
) -> _Piece | None:
    """Return the answer that begins with a number, None where the number is just one in a text."""
    number, start, end = int(found[1]), found.start(), found.end()
    check = model.checks[asked[number - 1]] if 0 < number <= len(asked) else None
    letter = LETTER.match(line, end)
    is_glued = end == found.end(1) or bool(found[2])
    if letter and (is_glued or BREAK.match(line, letter.end())):
        return _Piece(number, start, letter.end(), letter=letter[1].lower())
    if check and check.unit and (reading := READING.match(line, end)):
        return _Piece(number, start, *_measured(model, check, reading))
    begins = not line[:start].strip(" \t*•-") or line[:start].rstrip().endswith((",", ";"))
    is_next = last is not None and number == last.number + 1 and bool(found[2])
    is_words = (begins and (check or found[2])) or is_next
    return _Piece(number, start, end) if is_words and end < len(line) else None


def _measured(model: SetModel, check: CheckText, reading: re.Match[str]) -> tuple[int, None, str]:
    """Return where a reading ends and what it is; the word behind it only where it is a unit."""
    without = reading.start(1) if reading[1] else reading.end()
    text = reading[0]
    alone = text[: without - reading.start()]
    if _is_usable(model, check, alone) and not _is_usable(model, check, text):
        return without, None, alone
    return reading.end(), None, text


def _is_usable(model: SetModel, check: CheckText, said: str) -> bool:
    try:
        read_answer(model, check.id, said)
    except UnknownReading:
        return False
    return True


def _read(
    model: SetModel, asked: Sequence[str], piece: _Piece, words: str, body: str
) -> ReadAnswer | Unclear:
    """Return what one answer says."""
    words = " ".join(words.split())
    if not 0 < piece.number <= len(asked):
        return Unclear(piece.number, words, f"There is no question {piece.number}.")
    check = model.checks[asked[piece.number - 1]]
    said = _said(check, piece, body.strip(" \t.,;:()"))
    if said is None or (piece.reading and DIGIT.search(body)):
        return Unclear(piece.number, words, _why(check, piece))
    try:
        read_answer(model, check.id, said)
    except UnknownReading as problem:
        why = f"Found {problem.found}, expected {problem.expected}."
        return Unclear(piece.number, words, why)
    return ReadAnswer(piece.number, check.id, said, words)


def _said(check: CheckText, piece: _Piece, body: str) -> str | None:
    """Return an answer as it would be typed, None where it is none of those there are."""
    if piece.reading:
        return piece.reading
    if piece.letter == "?":
        return CANNOT_CHECK
    if piece.letter:
        place = LETTERS.index(piece.letter)
        options = [*check.outcomes, CANNOT_CHECK]
        return options[place] if place < len(options) else outcome_meant(check, piece.letter)
    figures = FIGURES.findall(body) if check.unit else []
    return figures[0] if len(figures) == 1 else outcome_meant(check, body)


def _why(check: CheckText, piece: _Piece) -> str:
    if piece.letter:
        last = LETTERS[len(check.outcomes)]
        return f"Question {piece.number} has the letters a to {last}."
    if check.unit:
        return f"Question {piece.number} asks for one number in {check.unit}."
    return "These words fit none of the answers that were offered."


def _agreed(
    model: SetModel, found: Sequence[ReadAnswer | Unclear]
) -> tuple[tuple[ReadAnswer, ...], tuple[Unclear, ...]]:
    """Return one answer a question, and what is unclear, both in the order of the questions."""
    answers: list[ReadAnswer] = []
    unclear = [each for each in found if isinstance(each, Unclear)]
    for number in sorted({each.number for each in found}):
        given = [e for e in found if isinstance(e, ReadAnswer) and e.number == number]
        said = {each.said for each in given}
        if len(said) == 1:
            answers.append(given[0])
        elif said and not said >= set(model.checks[given[0].check].outcomes):
            unclear.append(Unclear(number, "; ".join(e.words for e in given), TWICE))
    return tuple(answers), tuple(sorted(unclear, key=lambda each: each.number))
