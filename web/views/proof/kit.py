"""Before the points of the proof: which rules, and how good the instruments are."""

from xml.etree.ElementTree import Element

from engine.proving.readings import usual_accuracy
from engine.proving.sheet import Meter
from engine.proving.words import rules_words
from web.accuracies import accuracies_of
from web.views.markup import h, puts
from web.views.proof.state import Proving
from web.views.refused import refused_words


def rules_card(proving: Proving) -> Element:
    """Return the choice of the rule set, with where and when it holds."""
    sheet, chosen = proving.sheet, proving.proof.now.rules
    options = [
        h("option", {"value": name, "selected": name == chosen.id}, each.title)
        for name, each in sheet.rule_sets.items()
    ]
    problem = proving.problem_at("rules")
    others = ", ".join(sheet.elsewhere)
    return h(
        "section",
        {"class": "card", "aria-labelledby": "rules-title"},
        h("h2", {"id": "rules-title"}, "Which rules"),
        h(
            "form",
            puts("proof-rules"),
            h("label", {"for": "rules"}, "The set is held to"),
            h(
                "select",
                {"id": "rules", "name": "rules", "data-submit": True, "autocomplete": "off"},
                options,
            ),
        ),
        h("p", {"class": "hint"}, f"{rules_words(proving.proof.now)}."),
        h("p", {"class": "wrong"}, refused_words(problem.problem)) if problem else None,
        h("p", {"class": "hint"}, f"Rules for other channels, not for this set: {others}.")
        if others
        else None,
    )


def instruments_card(proving: Proving) -> Element:
    """Return the accuracy of every instrument of the points, kept with the kit."""
    meters: dict[str, list[Meter]] = {}
    for point in proving.sheet.points:
        for meter in point.meters:
            known = meters.setdefault(meter.instrument, [])
            known.extend([meter] if meter.unit not in [each.unit for each in known] else [])
    hint = (
        "From the maker's sheet or the last calibration, such as “5 %”, “2 ppm + 10 Hz” or "
        "“0.4 dB (k=2)”. Left empty, the usual accuracy of such an instrument is taken."
    )
    return h(
        "section",
        {"class": "card", "aria-labelledby": "instruments-title"},
        h("h2", {"id": "instruments-title", "tabindex": "-1"}, "How good your instruments are"),
        h("p", {"class": "hint"}, hint),
        h("div", {"class": "cards"}, [_row(proving, *each) for each in meters.items()]),
    )


def _row(proving: Proving, instrument: str, meters: list[Meter]) -> Element:
    problem = proving.problem_at(f"accuracy of '{instrument}'")
    told = problem.typed if problem else accuracies_of(proving.kit).get(instrument, "")
    name = f"accuracy-{instrument}"
    usual = "; ".join(f"±{usual_accuracy(each)}" for each in meters)
    field = {
        "type": "text",
        "id": name,
        "name": "said",
        "value": told,
        "autocomplete": "off",
        "aria-invalid": "true" if problem else None,
        "aria-describedby": f"usual-{instrument}",
    }
    title = proving.sheet.instruments[instrument]
    lacks = "" if instrument in proving.kit.instruments else " You said you have none."
    return h(
        "form",
        {"class": "reading", "data-focus": name, **puts("accuracy", instrument=instrument)},
        h("label", {"for": name}, title),
        h(
            "span",
            {"class": "row"},
            h("input", field),
            h("button", {"type": "submit", "aria-label": f"Keep: {title}"}, "Keep"),
        ),
        h("small", {"id": f"usual-{instrument}"}, f"Usual: {usual}.{lacks}"),
        h("p", {"class": "wrong"}, refused_words(problem.problem)) if problem else None,
    )
