"""Several readings in one go: each line of a note held against the checks, for confirmation.

`tx power 0.4 W` is a reading and words. The unit says which checks can be meant, the words which
of them is: those of titles, questions and places, weighed by how rare they are.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import log

from engine.diagnosis.entry import read_answer
from engine.diagnosis.frequencies.checks import once
from engine.diagnosis.model import CheckText, SetModel
from engine.errors import UnknownReading
from engine.radio.units import Unit, convert, unit_of
from engine.words.english import STOP, stem
from engine.words.slips import mended

CHANNEL = re.compile(r"\b(?:on\s+)?(?:channel|chan|ch)\.?\s*(\d+)\b", re.I)
NUMBER = re.compile(r"(?<![\w.,-])[-+−]?(?:\d[\d\s]*)?[.,]?\d+\s*(?P<unit>%|[A-Za-zµμΩ]+)?")
WORD = re.compile(r"[a-z]+|\d+(?:\.\d+)?")
ANSWER = re.compile(r"^(?P<words>.*?)(?:[:=]\s*(?P<told>[^:=]+)|\s(?P<last>yes|no))\s*$", re.I)
SHORT = {
    "ant": "aerial", "antenna": "aerial", "batt": "battery", "cv": "control voltage",
    "dev": "deviation", "freq": "frequency error", "lo": "local oscillator", "mic": "microphone",
    "osc": "oscillator", "pa": "output stage", "psu": "supply", "pwr": "power",
    "ref": "reference", "reg": "regulated", "rx": "receive", "sens": "sensitivity",
    "speaker": "loudspeaker", "spkr": "loudspeaker", "tx": "transmit",
}  # fmt: skip
ENOUGH = 0.25  # a likeness below this is none
RIVAL = 0.4  # alternatives score at least this share of the best
MOST = 4  # alternatives shown
WEIGHTS = (1.0, 0.7, 0.5, 0.4)  # of a word in the title or id, the block, the question, the place
OTHER_UNIT, NO_UNIT = 0.8, 0.9  # what a likeness is worth when the unit is another, or left out
TITLE_LEFT = 0.2  # how much a word of the title counts that the line has not
SENT = 0.5  # likeness of the frequency sent, when nothing but a frequency is told
PREFERRED = "MHz"  # of a check that reads a frequency


@dataclass(frozen=True, slots=True)
class Fit:
    """A check that a line may be about, and what would be entered; `problem` when it cannot be."""

    check: str
    said: str
    score: float
    problem: str = ""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a note and the checks it fits, best first; none when it fits nothing."""

    text: str
    fits: tuple[Fit, ...]

    @property
    def is_usable(self) -> bool:
        """Whether at least one check would take it."""
        return any(not fit.problem for fit in self.fits)


def read_lines(model: SetModel, note: str) -> tuple[Line, ...]:
    """Return every line that is not empty with the checks it may be about; nothing is entered."""
    lines = (" ".join(line.split()) for line in note.splitlines())
    return tuple(Line(line, _fits(model, line)) for line in lines if line)


def _fits(model: SetModel, line: str) -> tuple[Fit, ...]:
    """Return the checks a line fits, those that would take it first; ties by id."""
    found = sorted(_candidates(model, line), key=lambda fit: (-round(fit.score, 9), fit.check))
    usable = [fit for fit in found if not fit.problem] or found
    return tuple(fit for fit in usable[:MOST] if fit.score >= RIVAL * usable[0].score)


def _candidates(model: SetModel, line: str) -> Iterator[Fit]:
    """Yield every check that is like enough, with what it makes of the reading."""
    plain = CHANNEL.sub(" ", line)
    channel = CHANNEL.search(line)
    numbers = [*NUMBER.finditer(plain)]
    told = [match for match in numbers if unit_of(match["unit"] or "")] or numbers
    if not told:
        yield from _named(model, plain)
        return
    match = told[-1]
    unit = unit_of(match["unit"] or "")
    end = match.end() if unit else match.start("unit") if match["unit"] else match.end()
    reading = plain[match.start() : end].strip()
    words = f"{plain[: match.start()]} {plain[end:]}"
    alike = _alike(model, words) if _stems(words) else _by_frequency(model, unit)
    for check, likeness in alike:
        worth = likeness * _same_unit(check, unit)
        if check.unit and worth >= ENOUGH:
            on = f" on channel {channel[1]}" if channel and check.at is not None else ""
            yield _fit(model, check, reading + on, worth)


def _by_frequency(model: SetModel, unit: Unit | None) -> Iterator[tuple[CheckText, float]]:
    """Yield the checks that a frequency without any word may be about: what is sent goes first."""
    if unit is None or unit.symbol != PREFERRED:
        return
    for check in once(model.checks).values():
        if check.at is not None:
            yield check, SENT if check.at.point == "transmit" else ENOUGH


def _named(model: SetModel, line: str) -> Iterator[Fit]:
    """Yield checks with named answers, for a line such as `fuse blown: yes`."""
    match = ANSWER.match(line)
    if not match:
        return
    said = (match["told"] or match["last"]).strip()
    for check, likeness in _alike(model, match["words"]):
        if not check.unit and likeness >= ENOUGH:
            fit = _fit(model, check, said, likeness)
            if not fit.problem:
                yield fit


def _fit(model: SetModel, check: CheckText, said: str, score: float) -> Fit:
    try:
        finding = read_answer(model, check.id, said)
    except UnknownReading as error:
        problem = f"found {error.found}, expected {error.expected}. {error.remedy}"
        return Fit(check.id, said, score, problem)
    return Fit(finding.check, said, score)


def _same_unit(check: CheckText, unit: Unit | None) -> float:
    """Return how well a unit goes with a check, 0 when it cannot be its reading."""
    wanted = unit_of(check.unit or "")
    if unit is None or wanted is None:
        return NO_UNIT if unit is None else 0.0
    if check.at is not None:
        return 1.0 if unit.symbol in (PREFERRED, wanted.symbol) else OTHER_UNIT
    if unit.base == wanted.base:
        return 1.0
    return OTHER_UNIT if convert(1.0, unit, wanted) is not None else 0.0


# ---- words


@dataclass(frozen=True, eq=False)
class _Vocabulary:
    """The words of every check with their weights there, and how rare each word is."""

    checks: tuple[CheckText, ...]
    words: tuple[dict[str, float], ...]
    titles: tuple[frozenset[str], ...]
    rare: dict[str, float]


@lru_cache(maxsize=4)
def _vocabulary(model: SetModel) -> _Vocabulary:
    checks = tuple(once(model.checks).values())
    words = tuple(_words_of(model, check) for check in checks)
    counts: dict[str, int] = {}
    for row in words:
        for word in row:
            counts[word] = counts.get(word, 0) + 1
    rare = {word: log(1.0 + len(checks) / count) for word, count in counts.items()}
    return _Vocabulary(checks, words, tuple(frozenset(_stems(c.title)) for c in checks), rare)


def _words_of(model: SetModel, check: CheckText) -> dict[str, float]:
    """Return the stems of a check, each with the weight of the weightiest place it stands in."""
    block = model.blocks[check.block].title if check.block in model.blocks else ""
    name = check.id.partition(".")[2].replace("-", " ")
    texts = (f"{check.title} {name}", block, f"{check.asks} {check.mode}", check.where)
    found: dict[str, float] = {}
    for text, weight in zip(texts, WEIGHTS, strict=True):
        for word in _stems(text):
            found.setdefault(word, weight)
    return found


def _stems(text: str) -> list[str]:
    """Return the stems of a text, short forms written out and small words left out."""
    written = [SHORT.get(word, word) for word in WORD.findall(text.lower())]
    return [stem(word) for each in written for word in each.split() if word not in STOP]


def _alike(model: SetModel, words: str) -> Iterator[tuple[CheckText, float]]:
    """Yield every check with how like its words are to those of a line, 0 to 1.

    The ratio model of Tversky, Features of similarity, Psychological Review 84 (4), 1977.
    """
    known = _vocabulary(model)
    line = {word if word in known.rare else mended(word, known.rare) for word in _stems(words)}
    strange = max(known.rare.values(), default=0.0)
    total = sum(known.rare.get(word, strange) for word in line)
    for check, weights, title in zip(known.checks, known.words, known.titles, strict=True):
        common = sum(known.rare[word] * weights[word] for word in sorted(line & weights.keys()))
        left = sum(known.rare[word] for word in sorted(title - line))
        if common > 0.0:
            yield check, common / (total + TITLE_LEFT * left)
