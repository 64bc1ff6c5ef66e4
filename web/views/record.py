"""The record of a case, complete: on screen, on paper, and as plain text."""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
from engine.diagnosis.explaining import Explanation
from engine.diagnosis.steps import RankedCause
from web.views.counted import counted_note, counted_words
from web.views.ending import ending
from web.views.findings import limit_words, told
from web.views.frame import cautions, heading, steps
from web.views.frequencies import frequencies_on_paper, told_by_frequencies
from web.views.markup import button, h, puts
from web.views.mending import DONE
from web.views.reasons import joint
from web.views.shelf_button import closing_button
from web.views.state import Bench
from web.views.verdict import sentence, to_act_on, unproved
from web.views.words import KINDS, listed, minutes, percent, worth

CAUSES, CHECKS, ACTS = 10, 5, 3


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


def paper(bench: Bench, explanations: tuple[Explanation, ...], version: str) -> Element:
    """Return everything about a case, fit for printing."""
    family = bench.model.family
    return h(
        "div",
        None,
        h("h2", None, f"Set: {family.title}"),
        counted_note(bench.model),
        h("p", None, f"Note: {bench.note}") if bench.note else None,
        h("p", None, f"Instruments: {_kit(bench)}. Lid {bench.case.kit.lid}."),
        h("h3", None, "Findings"),
        _findings(bench),
        _limits(bench),
        frequencies_on_paper(told_by_frequencies(bench)),
        h("div", {"data-later": "proof"}),
        h("h3", None, "Where it stands"),
        h("p", None, sentence(bench)),
        ending(bench),
        h("h3", None, "Ranked causes"),
        h("ol", None, [_cause(bench, each) for each in _ranked(bench)]),
        h("h3", None, "Causes that together explain everything"),
        joint(bench, explanations),
        h("h3", None, "Advice"),
        _advice(bench),
        cautions(bench.model, _all_cautions(bench), "Cautions for these steps"),
        h(
            "p",
            {"class": "hint"},
            f"Dryjoint {version}, knowledge {bench.model.version}. "
            "Own work of the Dryjoint authors.",
        ),
    )


def _ranked(bench: Bench) -> tuple[RankedCause, ...]:
    return bench.step.causes[:CAUSES]


def _kit(bench: Bench) -> str:
    names = [bench.model.instruments[each].title for each in sorted(bench.case.kit.instruments)]
    return "; ".join(names) or "none"


def _findings(bench: Bench) -> Element:
    """Return everything that was found, with the repairs where they came in between."""
    rows: list[Element] = []
    for number, stretch in enumerate(bench.case.past):
        rows += [_finding(bench, number, each) for each in stretch.findings]
        rows.append(_repair(bench, number))
    rows += [_finding(bench, len(bench.case.past), each) for each in bench.case.findings]
    return (
        h("table", {"class": "found"}, h("tbody", None, rows))
        if rows
        else h("p", None, "None yet.")
    )


def _finding(bench: Bench, stretch: int, each: Finding) -> Element:
    return h(
        "tr",
        None,
        h("td", None, bench.when(stretch, each.check)),
        h("th", {"scope": "row"}, _asked(bench, each.check)),
        h("td", None, told(bench, each)),
    )


def _repair(bench: Bench, number: int) -> Element:
    repair = bench.case.past[number].repair
    title = h("th", {"scope": "row"}, f"Put right: {bench.model.causes[repair.cause].title}")
    words = h("td", None, DONE[repair.how])
    return h("tr", {"class": "put-right"}, h("td", None, bench.when(number)), title, words)


def _asked(bench: Bench, check: str) -> list[Element]:
    """Return the title of a check with its question: alone a title may be misread."""
    text = bench.model.checks[check]
    return [h("b", None, text.title), h("small", None, f" {text.asks}")]


def _limits(bench: Bench) -> Element | None:
    """Return what the limits of the family's rules say of the readings."""
    rows = [
        h("li", None, h("b", None, bench.model.checks[check].title), f": {words}.")
        for check, words in _held(bench)
    ]
    return h("div", None, h("h3", None, "Limits"), h("ul", None, rows)) if rows else None


def _held(bench: Bench) -> list[tuple[str, str]]:
    """Return the checks whose readings are held to a limit, with the words about it."""
    worded = [(each.check, limit_words(bench, each)) for each in bench.standing]
    return [(check, words) for check, words in worded if words]


def _cause(bench: Bench, each: RankedCause) -> Element:
    place = f"{bench.model.blocks[each.block].title}, {KINDS[each.kind]}"
    return h("li", None, h("b", None, each.title), f" · {percent(each.probability)} · {place}")


def _advice(bench: Bench) -> Element:
    """Return what to do about what is sure, and the next checks."""
    rows = [
        h("li", None, f"{each.title} · {worth(each.gain_bits)} · {minutes(each.minutes)}")
        for each in bench.step.checks[:CHECKS]
    ]
    return h(
        "div",
        None,
        [_act(bench, cause) for cause in to_act_on(bench)[:ACTS]],
        h("p", None, "Checks that would tell most now:") if rows else None,
        h("ol", None, rows) if rows else None,
    )


def _act(bench: Bench, cause: str) -> Element:
    text = bench.model.causes[cause]
    first = listed([bench.model.checks[each].title for each in unproved(bench, cause)])
    act = f"First check: {first}" if first else text.act
    return h("p", None, h("b", None, f"{text.title}. "), act)


def _all_cautions(bench: Bench) -> tuple[str, ...]:
    """Return the cautions of the leading causes and of the next checks, each once."""
    ids = [
        *(one for each in _ranked(bench)[:3] for one in bench.model.causes[each.id].cautions),
        *(
            one
            for each in bench.step.checks[:CHECKS]
            for one in bench.model.checks[each.id].cautions
        ),
    ]
    return tuple(dict.fromkeys(ids))


def summary(bench: Bench, version: str, proof: Sequence[str] = ()) -> str:
    """Return the case as a short plain text, to be pasted into a message."""
    lines = [
        f"Set: {bench.model.family.title}",
        *([f"Note: {bench.note}"] if bench.note else []),
        *([counted_words(bench.model)] if bench.model.counted_sets else []),
        "",
        "Found:",
        *[
            f"- {bench.model.checks[each.check].title}: {told(bench, each)}"
            for each in bench.case.all_findings()
        ],
        *_frequency_lines(bench),
        *[f"- Limit: {words}" for _, words in _held(bench)],
        "",
        sentence(bench),
        *[f"- {each.title}: {percent(each.probability)}" for each in _ranked(bench)[:5]],
        "",
        "Next checks:",
        *[f"- {each.title} ({minutes(each.minutes)})" for each in bench.step.checks[:3]],
        "",
        "Cautions:",
        *[
            f"- {listed([bench.model.cautions[one].title])}: {bench.model.cautions[one].text}"
            for one in _all_cautions(bench)
        ],
        *(("", *proof) if proof else ()),
        "",
        f"Dryjoint {version}, knowledge {bench.model.version}",
    ]
    return "\n".join(lines)


def _frequency_lines(bench: Bench) -> list[str]:
    """Return the oscillators as lines of plain text, none until a frequency was read."""
    found = told_by_frequencies(bench)
    if found is None:
        return []
    rows = [
        f"- {each.title}: {each.offset_ppm:+.1f} ppm (95 %: {each.low_ppm:+.1f} to "
        f"{each.high_ppm:+.1f}), reads {each.reads_mhz:.6f} MHz, right {each.right_mhz:.6f}; "
        f"{each.turn}"
        for each in found.oscillators
    ]
    lines = [f"- {percent(each.probability)}: {each.words}" for each in found.lines]
    return ["", "Frequencies:", *rows, *lines]
