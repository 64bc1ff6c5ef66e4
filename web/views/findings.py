"""What was found so far, each to be changed or withdrawn."""

from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
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
        h("span", None, h("b", None, title), f": {said(bench.model, each)}", _doubt(bench, each)),
        h(
            "span",
            {"class": "row"},
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


def _doubt(bench: Bench, each: Finding) -> Element | None:
    if each in bench.step.clash:
        return h("em", {"class": "doubt"}, " cannot be true beside the others")
    bits = next((value for doubted, value in bench.step.doubts if doubted == each), None)
    return (
        h("em", {"class": "doubt"}, f" sits badly with the rest ({bits:.1f} bits)")
        if bits
        else None
    )
