"""The third screen: which instruments are at hand, and whether the lid may come off."""

from xml.etree.ElementTree import Element

from engine.diagnosis.model import InstrumentText
from web.views.frame import heading, steps
from web.views.markup import button, h, packed, puts, shows
from web.views.state import Bench


def kit(bench: Bench) -> list[Element]:
    """Return the screen of instruments."""
    have = bench.case.kit.instruments
    rows = [_row(each, each.id in have) for each in bench.model.instruments.values()]
    everything = sorted(bench.model.instruments)
    return [
        steps("kit"),
        heading("What have you got?"),
        h(
            "p",
            {"class": "lead"},
            "Only checks you can do are proposed. You can come back and change this.",
        ),
        h(
            "p",
            {"class": "row"},
            button("Eyes and ears only", puts("kit", instruments=[])),
            button("A multimeter", puts("kit", instruments=["multimeter"])),
            button("A whole bench", puts("kit", instruments=everything)),
        ),
        _lid(bench.case.kit.lid),
        h(
            "fieldset",
            None,
            h("legend", None, "Instruments and tools"),
            h("div", {"class": "columns"}, rows),
        ),
        h(
            "p",
            {"class": "onward"},
            button("Go on", {"class": "main", **shows("title", screen="bench")}),
        ),
    ]


def _lid(lid: str) -> Element:
    return h(
        "fieldset",
        None,
        h("legend", None, "The case of the set"),
        h(
            "div",
            {"class": "symptom"},
            h(
                "input",
                {
                    "type": "checkbox",
                    "id": "lid",
                    "checked": lid == "off",
                    "data-on": packed({"do": "lid", "lid": "off"}),
                    "data-off": packed({"do": "lid", "lid": "on"}),
                },
            ),
            h(
                "label",
                {"for": "lid"},
                h("b", None, "The lid may come off"),
                h(
                    "small",
                    None,
                    "Leave this open if you have not worked inside a set before, or may not.",
                ),
            ),
        ),
    )


def _row(each: InstrumentText, has: bool) -> Element:
    return h(
        "div",
        {"class": "symptom"},
        h(
            "input",
            {
                "type": "checkbox",
                "id": f"have-{each.id}",
                "checked": has,
                "data-on": packed({"do": "have", "instrument": each.id}),
                "data-off": packed({"do": "lack", "instrument": each.id}),
            },
        ),
        h(
            "label",
            {"for": f"have-{each.id}"},
            h("b", None, each.title),
            h("small", None, each.plain),
        ),
    )
