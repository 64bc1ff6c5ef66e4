"""What the frequencies that were read come to: which oscillator, how far, which way to turn."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.advice import frequencies_told
from engine.diagnosis.frequencies.reporting import (
    BEFORE_TURNING,
    FrequencyReport,
    OscillatorReport,
)
from web.views.frame import cautions
from web.views.markup import h
from web.views.state import Bench
from web.views.words import percent

HEADS = ("Oscillator", "Right MHz", "Reads MHz", "Error, ppm", "95 % of it", "Off?")


def frequencies(bench: Bench) -> Element | None:
    """Return the section, None until a frequency was read; it is filled once this is on screen."""
    if not _any_read(bench):
        return None
    return h(
        "section",
        {"class": "frequencies", "id": "frequencies", "aria-labelledby": "frequencies-title"},
        h("h2", {"id": "frequencies-title"}, "What the frequencies say"),
        h("div", {"data-later": "frequencies", "id": "frequencies-told"}),
    )


def told_by_frequencies(bench: Bench) -> FrequencyReport | None:
    """Return what the frequencies come to, None until one was read."""
    return frequencies_told(bench.model, bench.case)


def frequencies_filled(bench: Bench, found: FrequencyReport) -> Element:
    """Return oscillators, what to turn with its cautions first, and what the counts mean."""
    before = [each for each in BEFORE_TURNING if each in bench.model.cautions]
    turned = any(each.is_to_be_turned for each in found.oscillators)
    return h(
        "div",
        None,
        frequency_table(found),
        cautions(bench.model, tuple(before), "Before anything is turned") if turned else None,
        h("ul", {"class": "rows"}, _turns(found)),
        h("h3", None, "Programming lines"),
        h("ul", {"class": "rows"}, _lines(found)),
    )


def _any_read(bench: Bench) -> bool:
    return any(
        bench.model.checks[finding.check].at is not None and finding.is_evidence
        for finding in bench.standing
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
    span = f"{each.low_ppm:+.1f} to {each.high_ppm:+.1f}"
    return h(
        "tr",
        {"data-oscillator": each.id},
        h("th", {"scope": "row"}, each.title),
        h("td", None, f"{each.right_mhz:.6f}"),
        h("td", None, f"{each.reads_mhz:.6f}"),
        h("td", None, f"{each.offset_ppm:+.1f}"),
        h("td", None, span),
        h("td", None, percent(each.p_off)),
    )


def _turns(found: FrequencyReport) -> list[Element]:
    """Return what is to be turned first; those that are to be left follow."""
    ranked = sorted(found.oscillators, key=lambda each: not each.is_to_be_turned)
    return [h("li", None, turn_words(each)) for each in ranked]


def turn_words(each: OscillatorReport) -> str:
    """Word what an oscillator is to be, and what to turn for it."""
    return f"{each.title}, to be {each.right_mhz:.6f} MHz: {each.turn}."


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
