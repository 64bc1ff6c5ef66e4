"""The record of a case, complete: on screen, on paper, and as plain text."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advice import RankedCause
from engine.diagnosis.explaining import Explanation
from web.views.frame import cautions, heading, steps
from web.views.markup import button, h, puts
from web.views.reasons import joint
from web.views.state import Bench, said
from web.views.verdict import sentence
from web.views.words import KINDS, bits, listed, minutes, percent

CAUSES, CHECKS = 10, 5


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
        h("p", None, f"Note: {bench.note}") if bench.note else None,
        h("p", None, f"Instruments: {_kit(bench)}. Lid {bench.case.kit.lid}."),
        h("h3", None, "Findings"),
        _findings(bench),
        h("h3", None, "Where it stands"),
        h("p", None, sentence(bench)),
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
    rows = [
        h(
            "tr",
            None,
            h("td", None, bench.times.get(each.check, "")[:16].replace("T", " ")),
            h("th", {"scope": "row"}, bench.model.checks[each.check].title),
            h("td", None, said(bench.model, each)),
        )
        for each in bench.case.findings
    ]
    return (
        h("table", {"class": "found"}, h("tbody", None, rows))
        if rows
        else h("p", None, "None yet.")
    )


def _cause(bench: Bench, each: RankedCause) -> Element:
    place = f"{bench.model.blocks[each.block].title}, {KINDS[each.kind]}"
    return h("li", None, h("b", None, each.title), f" · {percent(each.probability)} · {place}")


def _advice(bench: Bench) -> Element:
    """Return what to do about the leading cause, and the next checks."""
    leading = next((each for each in _ranked(bench) if each.kind != "event"), _ranked(bench)[0])
    act = bench.model.causes[leading.id].act
    rows = [
        h("li", None, f"{each.title} · {bits(each.gain_bits)} · {minutes(each.minutes)}")
        for each in bench.step.checks[:CHECKS]
    ]
    return h(
        "div",
        None,
        h("p", None, h("b", None, f"If it is “{leading.title}”: "), act),
        h("p", None, "Checks that would tell most now:") if rows else None,
        h("ol", None, rows) if rows else None,
    )


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


def summary(bench: Bench, version: str) -> str:
    """Return the case as a short plain text, to be pasted into a message."""
    lines = [
        f"Set: {bench.model.family.title}",
        *([f"Note: {bench.note}"] if bench.note else []),
        "",
        "Found:",
        *[
            f"- {bench.model.checks[each.check].title}: {said(bench.model, each)}"
            for each in bench.case.findings
        ],
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
        "",
        f"Dryjoint {version}, knowledge {bench.model.version}",
    ]
    return "\n".join(lines)
