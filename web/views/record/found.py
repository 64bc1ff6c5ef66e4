"""Parts of the record about what was found: the set, the complaint, findings, limits."""

from collections.abc import Iterator, Mapping
from typing import Any

from engine.diagnosis.case import Finding
from web.letter_log import Posted
from web.shelf_lines import complaints
from web.views.counted import counted_words
from web.views.findings import limit_words, told
from web.views.frequencies import HEADS, told_by_frequencies, turn_words
from web.views.mending import DONE
from web.views.part import Part, Row
from web.views.state import Bench
from web.views.words import percent


def set_part(bench: Bench, about: Mapping[str, Any]) -> Part:
    """Return which set it is, what it was looked at with, and what the figures rest on.

    `about` has its `title` and the `owner`, as they are written on the shelf.
    """
    family = bench.model.family
    rows = {
        "Owner's reference": str(about.get("owner", "")),
        "Called": str(about.get("title", "")),
        "Rules": family.rules_title,
        "Instruments": f"{_kit(bench)}. Lid {bench.case.kit.lid}",
        "Note": bench.note,
        "Figures": counted_words(bench.model),
    }
    lines = [f"{name}: {words.rstrip('.')}." for name, words in rows.items() if words]
    return Part(f"Set: {family.title}", tuple(lines), kind="set")


def _kit(bench: Bench) -> str:
    known, kit = bench.model.instruments, bench.case.kit.instruments
    if len(kit) == len(known):
        return f"all {len(known)} that are known here"
    return "; ".join(known[each].title for each in sorted(kit)) or "none"


def complaint_part(bench: Bench) -> Part | None:
    """Return the complaint: in the owner's words where they were kept, and as it was ticked."""
    message = " ".join(bench.letters.message.split())
    words = [f"In the owner's words: “{message}”"] if message else []
    lines = (*words, *complaints(bench))
    return Part("Complaint", lines, kind="complaint") if lines else None


def letters_part(bench: Bench) -> Part | None:
    """Return which letters went to the owner and came back, and what they asked and answered."""
    rows = [_letter(bench, each) for each in bench.letters.post]
    return Part("Letters", rows=tuple(rows), kind="letters") if rows else None


def _letter(bench: Bench, posted: Posted) -> Row:
    known = bench.model.checks
    titles = [known[each].title for each in posted.checks if each in known]
    head = "Owner answered" if posted.is_reply else "Asked the owner"
    return Row(head, ("; ".join(titles) or "In own words", posted.at[:16].replace("T", " ")))


def findings_part(bench: Bench) -> Part:
    """Return everything that was found, with the repairs where they came in between."""
    rows: list[Row] = []
    for number, stretch in enumerate(bench.case.past):
        rows += [_finding(bench, number, each) for each in stretch.findings]
        repair = stretch.repair
        title = f"Put right: {bench.model.causes[repair.cause].title}"
        rows.append(Row(title, (DONE[repair.how], bench.when(number))))
    rows += [_finding(bench, len(bench.case.past), each) for each in bench.case.findings]
    return Part("Found", () if rows else ("Nothing yet.",), rows=tuple(rows), kind="findings")


def _finding(bench: Bench, stretch: int, each: Finding) -> Row:
    """Return a finding with the question: a title alone may be misread."""
    text = bench.model.checks[each.check]
    return Row(text.title, (told(bench, each), bench.when(stretch, each.check)), text.asks)


def limits_part(bench: Bench) -> Part | None:
    """Return what the limits of the family's rules say of the readings of the set as it is."""
    lines = tuple(_held(bench))
    return Part("Limits", lines, kind="limits") if lines else None


def _held(bench: Bench) -> Iterator[str]:
    for each in bench.standing:
        words = limit_words(bench, each)
        if words:
            yield f"{bench.model.checks[each.check].title}: {words}."


def frequencies_part(bench: Bench) -> Part | None:
    """Return what the frequencies come to; None until one was read."""
    found = told_by_frequencies(bench)
    if found is None:
        return None
    first, *heads = HEADS
    rows = tuple(
        Row(
            each.title,
            (
                f"{each.right_mhz:.6f}",
                f"{each.reads_mhz:.6f}",
                f"{each.offset_ppm:+.1f}",
                f"{each.low_ppm:+.1f} to {each.high_ppm:+.1f}",
                percent(each.p_off),
            ),
        )
        for each in found.oscillators
    )
    lines = [turn_words(each) for each in found.oscillators]
    lines += [f"{each.words.capitalize()}: {percent(each.probability)}." for each in found.lines]
    return Part("What the frequencies say", tuple(lines), (first, *heads), rows, "frequencies")
