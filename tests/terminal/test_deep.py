from pathlib import Path

import pytest

from engine.__main__ import main
from engine.diagnosis.auditing.alike import alike
from engine.diagnosis.auditing.single import Audited, audited
from engine.knowledge.library import Library, examine, read_texts
from engine.terminal.deep import deep_text, note_text, sections
from tests.conftest import FAMILY, KB
from tests.diagnosis.auditing import bad_examples
from tests.diagnosis.conftest import Edit


def edit(kb: Path, *edits: Edit) -> None:
    """Carry out edits of the tiny knowledge base on disk."""
    for file, old, new in edits:
        text = (kb / file).read_text(encoding="utf-8")
        assert text.count(old) == 1, old
        (kb / file).write_text(text.replace(old, new), encoding="utf-8")


def deep(capsys: pytest.CaptureFixture[str]) -> str:
    """Return what `--deep` prints beside the counts."""
    assert main(["check", "kb", "--deep"]) == 0
    told = capsys.readouterr()
    assert told.err == ""
    return told.out.partition("\n\n")[2]


NOTHING = """\
Causes that no check of a full kit tells apart: 1
kb/blocks/supply.yaml:16: note: causes.flat-battery.ways.empty: found no check that tells it from
  supply.fuse-joint (present), expected one
  Nothing in the knowledge differs: find what a mechanic would see, and check that. Only questions
  about drop move the odds between them.

Ways of one cause that no check tells apart: none

Checks that tell next to nothing: none

Symptoms with one explanation, or none: none

Causes that no symptom shows: none

Stated priors far from those of parts: none

Trade words in what an owner reads: none

Texts for an owner that are hard to read: none

1 note; a note is no mistake and fails nothing.
"""


def test_what_cannot_be_told_is_noted(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An empty battery and an open fuse holder do the same to the rail, and nothing else."""
    assert deep(capsys) == NOTHING


def test_nothing_to_note_is_said_too(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Once the two are told apart by a look at the joint."""
    edit(
        kb,
        bad_examples.more_checks(
            bad_examples.SUPPLY,
            bad_examples.check("look", "look", "fuse-joint", "{fine: 0.02, present: 0.8}"),
        ),
    )
    told = deep(capsys)
    assert told.startswith("Causes that no check of a full kit tells apart: none\n")
    assert told.endswith("\n\nno notes; a note is no mistake and fails nothing.\n")


TWINS_NOTED = """
Causes that no check of a full kit tells apart: 2
kb/blocks/sender.yaml:42: note: causes.bias-part: found no check that tells it from
  sender.bias-wire (present), expected one
  Nothing in the knowledge differs: find what a mechanic would see, and check that.
kb/blocks/supply.yaml:16: note: causes.flat-battery.ways.empty: found no check that tells it from
  supply.fuse-joint (present), expected one
  Nothing in the knowledge differs: find what a mechanic would see, and check that. Only questions
  about drop move the odds between them.
"""

ALIKE_OUTSIDE_NOTED = """
Causes that no check of a full kit tells apart: 2
kb/blocks/sender.yaml:42: note: causes.bias-part: found no check that tells it from
  sender.coupling (present), expected one
  They differ in sender.drive: let a check show that.
kb/blocks/supply.yaml:16: note: causes.flat-battery.ways.empty: found no check that tells it from
  supply.fuse-joint (present), expected one
  Nothing in the knowledge differs: find what a mechanic would see, and check that. Only questions
  about drop move the odds between them.
"""

TWIN_WAYS_NOTED = """
Ways of one cause that no check tells apart: 1
kb/blocks/sender.yaml:48: note: causes.core.ways.in: found what shows in every check as 'out'
  does, expected a way of its own
  Nothing in the knowledge differs: find what a mechanic would see, and check that. Or make them
  one way: what is to be done is the same.
"""

SILENT_NOTED = """
Checks that tell next to nothing: 1
kb/blocks/supply.yaml:30: note: checks.smell: found 0.002 bits at most, whatever single thing is
  wrong, expected 0.05 bits or more
  Single causes bring it 'right', 'low', 'absent': widen the chances there, or leave it out.
"""

ONE_CAUSE_NOTED = """
Symptoms with one explanation, or none: 1
kb/blocks/sender.yaml:43: note: checks.knob-loose: found sender.preset alone, expected two causes
  or more that bring it about
  Add the causes that also bring it about, or let it look at a signal.
"""

NO_CAUSE_NOTED = """
Symptoms with one explanation, or none: 1
kb/blocks/sender.yaml:43: note: checks.dull: found no cause at all, expected two causes or more
  that bring it about
  Add the causes that also bring it about, or let it look at a signal.
"""

UNNOTICED_NOTED = """
Causes that no symptom shows: 1
kb/blocks/sender.yaml:46: note: causes.screen: found no symptom that shows it, expected one or
  more
  Add what an owner would notice, unless only the bench can find it.
"""

FAR_PRIORS_NOTED = """
Stated priors far from those of parts: 2
kb/blocks/sender.yaml:45: note: causes.small-transistor.prior: found 0.1, expected 0.0008 to
  0.0012 within a factor of 30
  That is what modes of 'transistor' come to; take 'part' and 'mode', or say why not.
kb/blocks/sender.yaml:52: note: causes.odd-thing.prior: found 1e-06, expected 0.0001 to 0.0012
  within a factor of 30
  That is what modes of any part come to; take 'part' and 'mode', or say why not.
"""

TRADE_WORDS_NOTED = """
Trade words in what an owner reads: 1
kb/blocks/supply.yaml:39: note: checks.feel.plain: found 'varactors', 'rf', 'choke', expected
  words of somebody who has never opened a set
  Say it in plain words, or explain the word in brackets behind it.
"""

HARD_NOTED = """
Texts for an owner that are hard to read: 1
kb/blocks/supply.yaml:39: note: checks.feel.plain: found reading ease -140, expected 60 or more
  (Flesch 1948)
  Shorten the sentences first, then the words.
"""

NOTES: dict[str, tuple[tuple[Edit, ...], str]] = {
    "two causes alike": ((bad_examples.TWINS,), TWINS_NOTED),
    "differ where nobody looks": ((bad_examples.ALIKE_OUTSIDE,), ALIKE_OUTSIDE_NOTED),
    "two ways alike": ((bad_examples.TWIN_WAYS,), TWIN_WAYS_NOTED),
    "a check that tells nothing": ((bad_examples.SILENT,), SILENT_NOTED),
    "a symptom of one cause": ((bad_examples.ONE_CAUSE,), ONE_CAUSE_NOTED),
    "a symptom of none": ((bad_examples.NO_CAUSE,), NO_CAUSE_NOTED),
    "a cause nobody notices": (bad_examples.UNNOTICED, UNNOTICED_NOTED),
    "priors far off": ((bad_examples.FAR_PRIORS,), FAR_PRIORS_NOTED),
    "trade words": ((bad_examples.TRADE_WORDS,), TRADE_WORDS_NOTED),
    "hard to read": ((bad_examples.HARD,), HARD_NOTED),
}


@pytest.mark.parametrize(
    ("edits", "note"),
    NOTES.values(),
    ids=NOTES,
)
def test_each_kind_of_note_stands_under_its_heading(
    edits: tuple[Edit, ...], note: str, kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """File and line, what was found and expected, what to do."""
    edit(kb, *edits)
    assert note in f"\n{deep(capsys)}"


def test_a_set_of_the_same_blocks_adds_no_note(
    kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What two families share is noted once."""
    family = (kb / "families" / "beacon.yaml").read_text(encoding="utf-8")
    (kb / "families" / "twin.yaml").write_text(family, encoding="utf-8")
    assert deep(capsys) == NOTHING


def test_one_file_has_no_depth(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What a check tells depends on all blocks of a set."""
    assert main(["check", "kb/blocks/sender.yaml", "--deep"]) == 2
    said = "dryjoint: kb/blocks/sender.yaml: --deep needs a whole knowledge base\n"
    assert capsys.readouterr().err == said


def test_knowledge_that_is_wrong_is_not_looked_at_deeper(
    kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """First what is wrong, then what is thin."""
    edit(kb, ("blocks/sender.yaml", "makes: {drive: low}", "makes: {drive: lwo}"))
    assert main(["check", "kb", "--deep"]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("kb/blocks/sender.yaml:40: causes.preset.makes.drive: found 'lwo'")


PAIR = {
    ("output-stage.output-transistor", "tired"),
    ("output-stage.output-matching-capacitor", "drifted"),
}


def test_the_shipped_knowledge_is_looked_at(library: Library) -> None:
    """Every kind of note is there; the pair known to be alike is named for as long as it is."""
    found = sections(library, examine(read_texts(KB))[0])
    assert len(found) == 8
    notes = [note for section in found for note in section.notes]
    assert max(len(line) for line in deep_text(found).splitlines()) <= 100
    assert all((KB / note.file).is_file() and note.line > 1 for note in notes)
    seen = audited(library, FAMILY)
    told = any(set(group.ways) >= PAIR for group in alike(seen))
    assert told is is_still_alike(seen)
    texts = [note_text(note) for note in found[0].notes]
    named = [text for text in texts if "tired" in text and "output-matching-capacitor" in text]
    assert len(named) == told


def is_still_alike(seen: Audited) -> bool:
    """Whether the pair differs in no signal, and in no check of one of the two causes."""
    (one, first), (other, second) = PAIR
    truths = (seen.truths[one, first], seen.truths[other, second])
    rows = [
        [check.channel.rows[truth[check.looks_at]] for check in seen.checks.values()]
        for truth in truths
    ]
    return rows[0] == rows[1]
