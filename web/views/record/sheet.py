"""The record of a case, complete: on screen, on paper, and as plain text."""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.diagnosis.advising.explaining import Explanation
from web.views.counted import counted_note
from web.views.frame import heading, steps
from web.views.here_before import here_before_part
from web.views.markup import button, h, puts
from web.views.part import Part, as_text, on_paper
from web.views.record.end import advice_part, cautions_part, signatures_part, verdict_part
from web.views.record.found import (
    complaint_part,
    findings_part,
    frequencies_part,
    letters_part,
    limits_part,
    set_part,
)
from web.views.record.work import causes_part, repeated_part, stories_part, work_part
from web.views.shelf.button import closing_button
from web.views.state import Bench, Shown

PLAIN = Shown(screen="record")


def record_screen(bench: Bench) -> list[Element]:
    """Return the screen with the record and what can be done with it."""
    return [
        steps("record"),
        heading("Record of the case"),
        h(
            "p",
            {"class": "row"},
            button("Print", {"data-act": "print", "class": "main"}),
            button("Copy as text", {"data-act": "copy"}),
            button("Save as a file", {"data-act": "save-file"}),
            closing_button("to-closing"),
        ),
        h(
            "form",
            {"class": "note", **puts("note")},
            h(
                "label",
                {"for": "note"},
                "Your note: whose set, which corner of the shelf, what was done",
            ),
            h("textarea", {"id": "note", "name": "text", "rows": "3"}, bench.note),
            h("button", {"type": "submit"}, "Keep the note"),
        ),
        h("div", {"class": "paper", "data-later": "paper", "id": "paper"}),
    ]


def work_parts(bench: Bench, shown: Shown, explanations: tuple[Explanation, ...]) -> list[Part]:
    """Return the parts of the record up to the work; `shown` has what the shelf tells."""
    found = (
        set_part(bench, shown.about),
        here_before_part(bench, shown),
        complaint_part(bench),
        letters_part(bench),
        findings_part(bench),
        limits_part(bench),
        frequencies_part(bench),
        causes_part(bench),
        stories_part(bench, explanations),
        work_part(bench),
        repeated_part(bench),
    )
    return [each for each in found if each is not None]


def end_parts(bench: Bench) -> list[Part]:
    """Return the parts after what was set up and proved: where the case stands, and what next."""
    found = (verdict_part(bench), advice_part(bench), cautions_part(bench), signatures_part())
    return [each for each in found if each is not None]


def paper(
    bench: Bench,
    explanations: tuple[Explanation, ...],
    version: str,
    shown: Shown = PLAIN,
) -> Element:
    """Return everything about a case, fit for printing; the proof fills its own place."""
    return h(
        "div",
        None,
        h("h2", None, "Record of a repair" if bench.case.past else "Record of a case"),
        counted_note(bench.model),
        [on_paper(each) for each in work_parts(bench, shown, explanations)],
        h("div", {"data-later": "proof"}),
        [on_paper(each) for each in end_parts(bench)],
        h("p", {"class": "hint"}, f"{_made_by(bench, version)} Own work of the Dryjoint authors."),
    )


def summary(
    bench: Bench,
    version: str,
    shown: Shown = PLAIN,
    proof: Sequence[str] = (),
) -> str:
    """Return the case as plain text, to be pasted into a message."""
    first, *rest = (line for each in work_parts(bench, shown, ()) for line in as_text(each))
    assert not first, "every part begins with an empty line"
    end = [line for each in end_parts(bench) for line in as_text(each)]
    lines = [*rest, *(("", *proof) if proof else ()), *end, "", _made_by(bench, version)]
    return "\n".join(lines)


def _made_by(bench: Bench, version: str) -> str:
    family = bench.model.family
    title = f" ({family.rules_title})" if family.rules_title != family.rules else ""
    rules = f", rules {family.rules}{title}" if family.rules else ""
    return f"Dryjoint {version}, knowledge {bench.model.version}{rules}."
