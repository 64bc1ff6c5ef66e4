"""The third screen: which instruments are at hand, and whether the lid may come off."""

from xml.etree.ElementTree import Element

from engine.diagnosis.model import InstrumentText
from web.accuracies import COUNTER
from web.views.frame import heading, onward, steps, tick
from web.views.markup import button, h, puts, shows
from web.views.own.unticked import unticked
from web.views.state import Bench


def kit(bench: Bench) -> list[Element]:
    """Return the screen of instruments."""
    have = bench.case.kit.instruments
    rows = [_row(each, each.id in have) for each in bench.model.instruments.values()]
    lead = "Only checks you can do are proposed. You can come back and change this."
    return [
        steps("kit"),
        heading("What have you got?"),
        h("p", {"class": "lead"}, lead),
        *filter(None, [unticked(bench)]),
        h("div", {"data-later": "last-kit", "id": "last-kit"}),
        _presets(sorted(bench.model.instruments), have),
        _lid(bench.case.kit.lid),
        h(
            "fieldset",
            None,
            h("legend", None, "Instruments and tools"),
            h("div", {"class": "columns"}, rows),
        ),
        *([_counter(bench)] if COUNTER in have else []),
        *([] if bench.step.kinds else [_accuracies(bench)]),
        onward("bench"),
    ]


def _presets(everything: list[str], have: frozenset[str]) -> Element:
    """Return buttons for the kits most people have; the one there is looks pressed."""

    def preset(words: str, instruments: list[str]) -> Element:
        pressed = str(have == frozenset(instruments)).lower()
        return button(words, {"aria-pressed": pressed, **puts("kit", instruments=instruments)})

    return h(
        "p",
        {"class": "row"},
        preset("Eyes and ears only", []),
        preset("A multimeter", ["multimeter"]),
        preset("A whole bench", everything),
    )


def _lid(lid: str) -> Element:
    row = tick(
        "lid",
        lid == "off",
        (
            "The lid may come off",
            "Leave this without a tick if you have not worked inside a set, or may not.",
        ),
        ({"do": "lid", "lid": "off"}, {"do": "lid", "lid": "on"}),
    )
    return h("fieldset", None, h("legend", None, "The case of the set"), row)


def _counter(bench: Bench) -> Element:
    """Return the entry of how far the counter's timebase may be off."""
    ppm = bench.case.kit.counter_ppm
    field = {
        "type": "text",
        "id": "counter-ppm",
        "name": "ppm",
        "value": f"{ppm:g}" if ppm else "",
        "inputmode": "decimal",
        "autocomplete": "off",
        "aria-describedby": "counter-hint",
    }
    hint = "Left empty it is taken as 5 ppm. The better it is, the more a reading of it tells."
    return h(
        "form",
        {"class": "reading", **puts("counter")},
        h("label", {"for": "counter-ppm"}, "How far may your counter be off, in ppm?"),
        h(
            "span",
            {"class": "row"},
            h("input", field),
            h("button", {"type": "submit"}, "Keep"),
        ),
        h("small", {"id": "counter-hint"}, hint),
    )


def _accuracies(bench: Bench) -> Element:
    """Return what was told of the instruments' accuracy, and the way to tell it."""
    titles = {name: each.title for name, each in bench.model.instruments.items()}
    told = [f"{titles.get(name, name)}: {said}" for name, said in bench.case.kit.accuracies]
    words = "Say how good your instruments are"
    return h(
        "p",
        {"class": "row"},
        button(words, {"id": "to-accuracies", **shows("instruments-title", screen="prove")}),
        h("small", None, "; ".join(told) or "Only needed when the set is measured at the end."),
    )


def _row(each: InstrumentText, has: bool) -> Element:
    return tick(
        f"have-{each.id}",
        has,
        (each.title, each.plain),
        ({"do": "have", "instrument": each.id}, {"do": "lack", "instrument": each.id}),
    )
