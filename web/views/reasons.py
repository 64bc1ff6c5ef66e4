"""Why a cause stands where it stands, and which causes together explain everything."""

from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
from engine.diagnosis.explaining import Explanation, Reasons
from web.views.markup import h
from web.views.state import Bench, said
from web.views.words import decibans, listed, percent

SMALL_DECIBANS = 0.05


def why(bench: Bench, reasons: Reasons) -> Element:
    """Return the weight of each finding for and against a cause; the lines add up."""
    rows = [
        _line("Before any finding", reasons.prior_decibans, "start"),
        *[_finding(bench, finding, weight) for finding, weight in reasons.findings],
        _line("Together", reasons.posterior_decibans, "total"),
    ]
    return h(
        "div",
        None,
        h("h3", None, "Why, and why not"),
        h(
            "p",
            {"class": "hint"},
            "In decibans: ten more make it ten times as likely against its absence, 0 is even.",
        ),
        h("table", None, h("tbody", None, rows)),
    )


def _finding(bench: Bench, finding: Finding, weight: float) -> Element:
    words = f"{bench.model.checks[finding.check].title}: {said(bench.model, finding)}"
    side = "neutral" if abs(weight) < SMALL_DECIBANS else "for" if weight > 0 else "against"
    return _line(words, weight, side)


def _line(words: str, weight: float, side: str) -> Element:
    note = {"for": "speaks for it", "against": "speaks against it", "neutral": "says nothing"}
    return h(
        "tr",
        {"class": side},
        h("th", {"scope": "row"}, words),
        h("td", {"class": "figure"}, decibans(weight)),
        h("td", None, note.get(side, "")),
    )


def joint(bench: Bench, explanations: tuple[Explanation, ...]) -> Element:
    """Return the likeliest sets of causes that together explain everything found."""
    rows = [
        h(
            "li",
            None,
            h("span", None, _set(bench, each)),
            h("span", {"class": "figure"}, percent(each.probability)),
        )
        for each in explanations
    ]
    return h(
        "div",
        None,
        h("p", {"class": "hint"}, "Each line is a whole story: these causes and no others."),
        h("ol", {"class": "rows"}, rows),
    )


def _set(bench: Bench, explanation: Explanation) -> str:
    """Word one joint explanation."""
    names = []
    for cause, way in explanation.causes:
        text = bench.model.causes[cause]
        shown = text.ways.get(way, way)
        names.append(text.title if len(text.ways) < 2 else f"{text.title} ({shown})")
    return listed(names) or "Nothing wrong at all"
