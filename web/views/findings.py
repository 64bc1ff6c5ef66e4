"""What was found so far, each to be changed or withdrawn."""

from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
from engine.diagnosis.entry import understood
from engine.diagnosis.judging import in_words, judged
from web.views.leaf_button import leaf_button
from web.views.markup import button, h, puts, shows
from web.views.state import Bench, said


def findings(bench: Bench) -> Element:
    """Return the list of findings, the last one first."""
    rows = [_row(bench, each) for each in reversed(bench.case.findings)]
    return h(
        "section",
        {"class": "findings", "id": "findings", "aria-labelledby": "findings-title"},
        h("h2", {"id": "findings-title"}, "Found so far"),
        h("ol", {"class": "rows"}, rows) if rows else h("p", None, "Nothing yet."),
    )


def _row(bench: Bench, each: Finding) -> Element:
    title = bench.model.checks[each.check].title
    return h(
        "li",
        {"id": f"finding-{each.check}", "data-finding": each.check},
        h(
            "span",
            None,
            h("b", None, title),
            f": {told(bench, each)}",
            _doubt(bench, each),
            _limit(bench, each),
        ),
        h(
            "span",
            {"class": "row"},
            _tree(bench, each),
            button(
                "Change",
                {"aria-label": f"Change: {title}", **shows("check-title", check=each.check)},
            ),
            button(
                "Withdraw",
                {"aria-label": f"Withdraw: {title}", **puts("withdraw", check=each.check)},
            ),
        ),
    )


def _tree(bench: Bench, each: Finding) -> Element | None:
    """Return the way to what can bring a symptom about, drawn; none while the kind is open."""
    if bench.step.kinds or each.check not in bench.model.cut_sets:
        return None
    return leaf_button("What brings it about", bench.model.family.id, f"check/{each.check}")


def told(bench: Bench, each: Finding) -> str:
    """Word what was found, and what was typed where it had to be worked out.

    `40 Vpp` reads `4 W (40 Vpp across 50 ohm is 4.00 W)`.
    """
    words = understood(bench.model, each)
    return f"{said(bench.model, each)}{f' ({words})' if words else ''}"


def limit_words(bench: Bench, each: Finding) -> str:
    """Word what the limit of the family's rules says of a finding; empty where there is none."""
    judgement = judged(bench.model, each)
    return in_words(judgement) if judgement else ""


def _limit(bench: Bench, each: Finding) -> Element | None:
    words = limit_words(bench, each)
    return h("small", {"class": "limit"}, f" {words}.") if words else None


def _doubt(bench: Bench, each: Finding) -> Element | None:
    if each in bench.step.clash:
        return h("em", {"class": "doubt"}, " cannot be true beside the others")
    if any(doubted == each for doubted, _bits in bench.step.doubts):
        return h("em", {"class": "doubt"}, " sits badly with the rest")
    return None
