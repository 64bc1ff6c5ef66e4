"""`dryjoint check --deep`: what right knowledge still cannot tell, as notes to its author."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from engine.diagnosis.auditing import explained, owners_words, stated_priors
from engine.diagnosis.auditing.alike import Alike, alike
from engine.diagnosis.auditing.informing import FLOOR_BITS, silent_checks
from engine.diagnosis.auditing.single import Audited, Way, audited
from engine.errors import Problem
from engine.knowledge.draft import Draft
from engine.knowledge.library import Library
from engine.terminal.showing.paragraphs import filled


@dataclass(frozen=True, slots=True)
class Section:
    """Notes of one kind under a heading."""

    heading: str
    notes: tuple[Problem, ...]


def sections(library: Library, draft: Draft) -> tuple[Section, ...]:
    """Return everything noted about all families, each note once; sections without any too."""
    families = [audited(library, name) for name in library.families]

    def each(find: Callable[[Audited, Draft], Iterator[Problem]]) -> tuple[Problem, ...]:
        return tuple(dict.fromkeys(note for seen in families for note in find(seen, draft)))

    return (
        Section("Causes that no check of a full kit tells apart", each(_alike_causes)),
        Section("Ways of one cause that no check tells apart", each(_alike_ways)),
        Section("Checks that tell next to nothing", each(_silent)),
        Section("Symptoms with one explanation, or none", each(_hardly_explained)),
        Section("Causes that no symptom shows", each(_unnoticed)),
        Section("Stated priors far from those of parts", tuple(_priors(library, draft))),
        Section("Trade words in what an owner reads", tuple(_words(library, draft))),
        Section("Texts for an owner that are hard to read", tuple(_hard(library, draft))),
    )


def deep_text(found: Iterable[Section]) -> str:
    """Return the notes under their headings, with their number; lines of a hundred columns."""
    found = list(found)
    lines = []
    for section in found:
        lines.append(f"\n{section.heading}: {len(section.notes) or 'none'}")
        lines += [note_text(note) for note in section.notes]
    total = sum(len(section.notes) for section in found)
    number = "1 note" if total == 1 else f"{total or 'no'} notes"
    lines.append(f"\n{number}; a note is no mistake and fails nothing.")
    return "\n".join(lines)


def note_text(note: Problem) -> str:
    """Return a note as a line an editor can jump to, and what to do about it."""
    start = f"{note.file}:{note.line}: note: {note.path}:"
    told = f"{start} found {note.found}, expected {note.expected}"
    return f"{filled(told, 0, 2)}\n{filled(note.remedy, 2)}"


def _alike_causes(seen: Audited, draft: Draft) -> Iterator[Problem]:
    for group in alike(seen):
        if len(group.causes) > 1:
            own, *rest = group.ways
            others = ", ".join(f"{cause} ({way})" for cause, way in rest)
            yield _at_way(
                draft, own, f"no check that tells it from {others}", "one", _what_would(group)
            )


def _alike_ways(seen: Audited, draft: Draft) -> Iterator[Problem]:
    for group in alike(seen):
        if len(group.causes) == 1:
            own, *rest = group.ways
            others = ", ".join(f"'{way}'" for _, way in rest)
            found, expected = f"what shows in every check as {others} does", "a way of its own"
            remedy = f"{_what_would(group)} Or make them one way: what is to be done is the same."
            yield _at_way(draft, own, found, expected, remedy)


def _what_would(group: Alike) -> str:
    """Say what would separate the ways of a group, and what the past can do."""
    if group.differ:
        told = f"They differ in {', '.join(group.differ)}: let a check show that."
    else:
        told = "Nothing in the knowledge differs: find what a mechanic would see, and check that."
    if group.asked:
        told += f" Only questions about {', '.join(group.asked)} move the odds between them."
    return told


def _silent(seen: Audited, draft: Draft) -> Iterator[Problem]:
    for one in silent_checks(seen):
        met = ", ".join(f"'{state}'" for state in one.states)
        remedy = f"Single causes bring it {met}: widen the chances there, or leave it out."
        found = f"{one.gain_bits:.3f} bits at most, whatever single thing is wrong"
        yield _at_check(draft, one.check, "", found, f"{FLOOR_BITS:g} bits or more", remedy)


def _hardly_explained(seen: Audited, draft: Draft) -> Iterator[Problem]:
    for one in explained.hardly_explained(seen):
        found = f"{one.causes[0]} alone" if one.causes else "no cause at all"
        remedy = "Add the causes that also bring it about, or let it look at a signal."
        expected = "two causes or more that bring it about"
        yield _at_check(draft, one.symptom, "", found, expected, remedy)


def _unnoticed(seen: Audited, draft: Draft) -> Iterator[Problem]:
    for name in explained.unnoticed_causes(seen):
        block, _, cause = name.partition(".")
        remedy = "Add what an owner would notice, unless only the bench can find it."
        yield _problem(
            draft, block, ("causes", cause), "no symptom that shows it", "one or more", remedy
        )


def _priors(library: Library, draft: Draft) -> Iterator[Problem]:
    for one in stated_priors.far_priors(library):
        block, _, cause = one.cause.partition(".")
        whose = f"of '{one.part}'" if one.part else "of any part"
        expected = f"{one.least:.2g} to {one.most:.2g} within a factor of {stated_priors.FACTOR:g}"
        remedy = f"That is what modes {whose} come to; take 'part' and 'mode', or say why not."
        yield _problem(draft, block, ("causes", cause, "prior"), f"{one.prior:g}", expected, remedy)


def _words(library: Library, draft: Draft) -> Iterator[Problem]:
    for one in owners_words.trade_words(library):
        found = ", ".join(f"'{word}'" for word in one.words)
        remedy = "Say it in plain words, or explain the word in brackets behind it."
        expected = "words of somebody who has never opened a set"
        yield _at_check(draft, one.check, one.field, found, expected, remedy)


def _hard(library: Library, draft: Draft) -> Iterator[Problem]:
    for one in owners_words.hard_texts(library):
        found = f"reading ease {one.ease:.0f}"
        expected = f"{owners_words.FLOOR:g} or more (Flesch 1948)"
        remedy = "Shorten the sentences first, then the words."
        yield _at_check(draft, one.check, one.field, found, expected, remedy)


def _at_way(draft: Draft, way: Way, found: str, expected: str, remedy: str) -> Problem:
    """Return a note at one way of a cause, or at the cause when that has one way only."""
    block, _, cause = way[0].partition(".")
    has_ways = bool(draft.blocks()[block].model.causes[cause].ways)
    path = ("causes", cause, "ways", way[1]) if has_ways else ("causes", cause)
    return _problem(draft, block, path, found, expected, remedy)


def _at_check(
    draft: Draft, name: str, field: str, found: str, expected: str, remedy: str
) -> Problem:
    block, _, check = name.partition(".")
    path = ("checks", check, field) if field else ("checks", check)
    return _problem(draft, block, path, found, expected, remedy)


def _problem(
    draft: Draft, block: str, path: tuple[str, ...], found: str, expected: str, remedy: str
) -> Problem:
    return draft.blocks()[block].source.problem(path, found, expected, remedy)
