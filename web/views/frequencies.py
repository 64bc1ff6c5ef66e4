"""What the frequencies that were read come to: which oscillator, how far, which way to turn."""

from xml.etree.ElementTree import Element

from engine.diagnosis.frequencies.reporting import FrequencyReport, OscillatorReport
from web.views.markup import h
from web.views.state import Bench
from web.views.words import percent

HEADS = ("Oscillator", "Off?", "Error in ppm", "Reads MHz", "Right MHz")


def frequencies(bench: Bench) -> Element | None:
    """Return the section, None until a frequency was read."""
    found = bench.step.frequencies
    if found is None:
        return None
    return h(
        "section",
        {"class": "frequencies", "id": "frequencies", "aria-labelledby": "frequencies-title"},
        h("h2", {"id": "frequencies-title"}, "What the frequencies say"),
        frequency_table(found),
        h("ul", {"class": "rows"}, [_turn(each) for each in found.oscillators]),
        h("h3", None, "Programming lines"),
        h("ul", {"class": "rows"}, _lines(found)),
    )


def frequencies_on_paper(bench: Bench) -> Element | None:
    """Return the same for the record, None until a frequency was read."""
    found = bench.step.frequencies
    if found is None:
        return None
    return h(
        "div",
        None,
        h("h3", None, "What the frequencies say"),
        frequency_table(found),
        h("ul", None, [_turn(each) for each in found.oscillators]),
        h("ul", None, _lines(found)),
    )


def frequency_table(found: FrequencyReport) -> Element:
    """Return the oscillators with offset and interval, in a box that scrolls by itself."""
    rows = [_row(each) for each in found.oscillators]
    table = h(
        "table",
        None,
        h("thead", None, h("tr", None, [h("th", {"scope": "col"}, head) for head in HEADS])),
        h("tbody", None, rows),
    )
    box = {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": "Oscillators"}
    return h("div", box, table)


def _row(each: OscillatorReport) -> Element:
    span = f"{each.offset_ppm:+.1f} (95 %: {each.low_ppm:+.1f} to {each.high_ppm:+.1f})"
    return h(
        "tr",
        {"data-oscillator": each.id},
        h("th", {"scope": "row"}, each.title),
        h("td", {"class": "figure"}, percent(each.p_off)),
        h("td", {"class": "figure"}, span),
        h("td", {"class": "figure"}, f"{each.reads_mhz:.6f}"),
        h("td", {"class": "figure"}, f"{each.right_mhz:.6f}"),
    )


def _turn(each: OscillatorReport) -> Element:
    return h("li", None, f"{each.title}: {each.turn}.")


def _lines(found: FrequencyReport) -> list[Element]:
    return [
        h(
            "li",
            None,
            h("span", None, each.words.capitalize()),
            h("span", {"class": "figure"}, percent(each.probability)),
        )
        for each in found.lines
    ]
