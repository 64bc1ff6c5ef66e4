"""How well free words find the symptoms meant: `python -m tests.bench.owner_sentences`.

Sentences stand in tests/data/owner-sentences.yaml. Every even one of `sentences` is held out: it
was written before the vocabulary and not used for it. Those under `later` were written after its
first version, in other wording, and not used for what was added since.
"""

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.messages.sentences import symptoms_in
from engine.diagnosis.model import SetModel
from engine.knowledge.library import read_library
from engine.knowledge.loader import AuthorLoader

ROOT = Path(__file__).resolve().parents[2]
KB = ROOT / "kb"
FAMILY = "three-crystal-fm"
FILE = ROOT / "tests" / "data" / "owner-sentences.yaml"
Pair = tuple[str, str]  # symptom, answer


@dataclass(frozen=True)
class Sentence:
    """What an owner says, what it means, what may be offered besides, what it denies."""

    said: str
    means: frozenset[Pair]
    near: frozenset[Pair]
    denies: frozenset[Pair]


@dataclass(frozen=True)
class Score:
    """Counts over sentences; `first_3` and `first_5` are of the `meant` symptoms."""

    sentences: int
    meant: int
    first_3: int
    first_5: int
    proposed: int
    proposed_rightly: int
    proposed_first: int
    first_rightly: int
    denied: int
    denied_found: int
    denied_proposed: int
    silent_rightly: int
    silent_wanted: int

    def lines(self) -> list[str]:
        """Return the figures as text."""
        return [
            f"{self.sentences} sentences, {self.meant} symptoms meant",
            f"meant ones among the first 3: {_share(self.first_3, self.meant)}",
            f"meant ones among the first 5: {_share(self.first_5, self.meant)}",
            f"first candidate right: {_share(self.first_rightly, self.proposed_first)}",
            f"of all proposed as there, right: {_share(self.proposed_rightly, self.proposed)}",
            f"denied ones found as denied: {_share(self.denied_found, self.denied)}",
            f"denied ones proposed as there: {self.denied_proposed} of {self.denied}",
            f"nothing meant, nothing proposed: {_share(self.silent_rightly, self.silent_wanted)}",
        ]


def sentences(key: str = "sentences") -> list[Sentence]:
    """Return the sentences of one list in the order of the file."""
    data = yaml.load(FILE.read_text(encoding="utf-8"), AuthorLoader)
    return [
        Sentence(row["said"], *(_pairs(row.get(key, ())) for key in ("means", "near", "denies")))
        for row in data[key]
    ]


def held_out() -> list[Sentence]:
    """Return every even sentence, counted from 1."""
    return sentences()[1::2]


def _pairs(written: Any) -> frozenset[Pair]:
    return frozenset(
        (name, answer or "yes") for name, _, answer in (w.partition("=") for w in written)
    )


def score(model: SetModel, chosen: list[Sentence]) -> Score:
    """Return how the candidates for these sentences compare with what was meant."""
    counts = dict.fromkeys(Score.__dataclass_fields__, 0)
    for sentence in chosen:
        for name, count in _counted(model, sentence).items():
            counts[name] += count
    return Score(**counts)


def _counted(model: SetModel, sentence: Sentence) -> dict[str, int]:
    found = symptoms_in(model, sentence.said)
    there = [(each.question, each.answer) for each in found if each.is_there]
    not_there = {each.question for each in found if not each.is_there}
    right = sentence.means | sentence.near
    return {
        "sentences": 1,
        "meant": len(sentence.means),
        "first_3": len(sentence.means & set(there[:3])),
        "first_5": len(sentence.means & set(there[:5])),
        "proposed": len(there),
        "proposed_rightly": len(right & set(there)),
        "proposed_first": len(there[:1]),
        "first_rightly": len(right & set(there[:1])),
        "denied": len(sentence.denies),
        "denied_found": sum(name in not_there for name, _ in sentence.denies),
        "denied_proposed": len(sentence.denies & set(there)),
        "silent_rightly": int(not sentence.means and not there),
        "silent_wanted": int(not sentence.means),
    }


def misses(model: SetModel, chosen: list[Sentence]) -> list[str]:
    """Return what goes wrong, a sentence a paragraph; for sentences that are not held out."""
    lines = []
    for sentence in chosen:
        counts = _counted(model, sentence)
        wrong = counts["first_3"] < counts["meant"] or counts["denied_proposed"]
        if wrong or counts["proposed_rightly"] < counts["proposed"]:
            lines += ["", sentence.said, f"  means {sorted(sentence.means)}"]
            lines += [f"  {each}" for each in symptoms_in(model, sentence.said)]
    return lines


def _share(part: int, whole: int) -> str:
    return f"{part} of {whole} ({100 * part / whole:.0f} %)" if whole else "none"


def main() -> None:
    """Print the figures of all sets; with `misses`, what goes wrong in the one used for writing."""
    model = compile_family(read_library(KB), FAMILY)
    used = sentences()[0::2]
    print("Held out:", *score(model, held_out()).lines(), sep="\n  ")
    print("Written later:", *score(model, sentences("later")).lines(), sep="\n  ")
    print("Used while writing the vocabulary:", *score(model, used).lines(), sep="\n  ")
    if "misses" in sys.argv:
        print(*misses(model, used), sep="\n")


if __name__ == "__main__":
    main()
