"""Why a cause stands where it stands, and which causes together explain everything."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.explaining import Explanation, Reasons
from engine.diagnosis.case import Finding
from web.views.markup import h
from web.views.state import Bench, said
from web.views.words import decibans, listed, percent, strength


def why(bench: Bench, reasons: Reasons) -> Element:
    """Return what each finding says for and against a cause, in words and, folded, in figures."""
    told = [(_words(bench, finding), weight) for finding, weight in reasons.findings]
    rows = [
        h("li", None, h("span", None, words), h("b", None, strength(weight)))
        for words, weight in told
    ]
    return h(
        "div",
        None,
        h("h3", None, "Why, and why not"),
        h("ul", {"class": "rows"}, rows) if rows else h("p", None, "Nothing was found yet."),
        _figures(bench, reasons, told),
    )


def _figures(bench: Bench, reasons: Reasons, told: list[tuple[str, float]]) -> Element:
    """Return the weights that add up from the prior to the posterior."""
    start = "From before the last repair" if bench.case.past else "Before any finding"
    lines = [
        _line(start, reasons.prior_decibans),
        *[_line(words, weight) for words, weight in told],
        _line("Together", reasons.posterior_decibans, "total"),
    ]
    hint = "In decibans: ten more make it ten times as likely against its absence, 0 is even."
    return h(
        "details",
        {"id": "why-figures"},
        h("summary", None, "For the curious: the weights as figures"),
        h("p", {"class": "hint"}, hint),
        h("table", None, h("tbody", None, lines)),
    )


def _words(bench: Bench, finding: Finding) -> str:
    return f"{bench.model.checks[finding.check].lead_in} {said(bench.model, finding)}"


def _line(words: str, weight: float, kind: str | None = None) -> Element:
    return h(
        "tr",
        {"class": kind},
        h("th", {"scope": "row"}, words),
        h("td", {"class": "figure"}, decibans(weight)),
    )


def joint(bench: Bench, explanations: tuple[Explanation, ...]) -> Element:
    """Return the likeliest sets of causes that together explain everything found."""
    rows = [
        h("li", None, h("span", None, words), h("span", {"class": "figure"}, percent(chance)))
        for words, chance in stories(bench, explanations)
    ]
    return h(
        "div",
        None,
        h("p", {"class": "hint"}, "Each line is a whole story: these causes and no others."),
        h("ol", {"class": "rows"}, rows),
    )


def stories(bench: Bench, explanations: tuple[Explanation, ...]) -> list[tuple[str, float]]:
    """Return joint explanations in words; that nothing is wrong only if nothing complains."""
    told = (each for each in explanations if each.causes or not complains(bench))
    return [(_set(bench, each), each.probability) for each in told]


def complains(bench: Bench) -> bool:
    """Say whether a symptom was found that a set in order does not show."""
    for finding in bench.standing:
        check = bench.model.checks[finding.check]
        if check.kind == "symptom" and finding.outcome in check.outcomes:
            right = check.channel.rows[0]
            if right[list(check.outcomes).index(finding.outcome)] < max(right):
                return True
    return False


def _set(bench: Bench, explanation: Explanation) -> str:
    """Word one joint explanation."""
    names = []
    for cause, way in explanation.causes:
        text = bench.model.causes[cause]
        shown = text.ways.get(way, way)
        names.append(text.title if len(text.ways) < 2 else f"{text.title} ({shown})")
    return listed(names) or "Nothing wrong, as far as the knowledge goes"
