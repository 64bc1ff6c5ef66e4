"""One step of setting up: cautions, how it is made, the entry, what the readings say."""

from xml.etree.ElementTree import Element

from engine.diagnosis.settings import WantedText
from engine.setting_up.guiding import Standing
from engine.setting_up.sheet import Step
from engine.setting_up.words import (
    held_words,
    numbers_of,
    reason_words,
    together_words,
    wanted_words,
)
from web.set_up_case import evidence
from web.set_up_log import EVERYTHING
from web.views.frame import caution_box
from web.views.markup import button, h, packed, puts, shows
from web.views.refused import refused_words
from web.views.setting.state import Setting

WHENS = {"before": "As found", "after": "Set to"}
EXAMPLES = {
    "best": "The number at the old place, and at the new one.",
    "spread": "One number for each, with “;” between them, such as 3.1; 3.3.",
}
NOT_TURNED = "Leave “Set to” empty where nothing had to be turned."
STUCK = "It is turned as far as it goes and will not come right"


def setting_step(setting: Setting, standing: Standing) -> Element:
    """Return everything below the head of a step."""
    step = standing.step
    cautions = [setting.model.cautions[one] for one in step.cautions]
    return h(
        "div",
        None,
        caution_box(cautions, "Before you start") if cautions else None,
        _how(setting, step),
        _entry(setting, standing),
        _result(setting, standing),
    )


def _how(setting: Setting, step: Step) -> Element:
    """Return how a step is made, as terms and their words."""
    text, by_name = step.setting, {each.id: each for each in setting.sheet.steps}
    moves = [one for one in step.disturbs if one not in step.together]
    rows = [
        ("Why", reason_words(setting.model, step.reason)),
        ("After", numbers_of(step.first, by_name)),
        ("Mode", "" if text.mode == "any" else text.mode),
        ("Into", text.load),
        ("With", "; ".join(_instrument(setting, step, one) for one in text.needs)),
        ("Apply", text.apply),
        ("Where", text.where),
        ("How", text.how),
        *(("Wanted", words) for words in wanted_words(step)),
        ("Turn", text.turn),
        ("Together", together_words(setting.model, step)),
        ("Moves", numbers_of(moves, by_name)),
    ]
    terms = [(h("dt", None, head), h("dd", None, words)) for head, words in rows if words]
    return h("dl", {"class": "how"}, [part for pair in terms for part in pair])


def _instrument(setting: Setting, step: Step, name: str) -> str:
    known = setting.model.instruments
    title = known[name].title if name in known else name
    return f"{title} (you said you have none)" if name in step.missing else title


def _entry(setting: Setting, standing: Standing) -> Element:
    """Return the fields: as found and set to, for each thing wanted."""
    step, typed = standing.step, setting.typed_at(standing)
    pairs = [*typed, *((("", ""),) * (len(step.wanted) - len(typed)))]
    problem = setting.problem_of(step)
    return h(
        "form",
        {"class": "reading set-up", **puts("set", adjustment=step.id)},
        [
            _wanted(setting, step, number, wanted, pairs[number])
            for number, wanted in enumerate(step.wanted)
        ],
        h("p", {"class": "hint"}, NOT_TURNED),
        h(
            "p",
            {"class": "tick"},
            h(
                "input",
                {"type": "checkbox", "name": "gave-up", "value": "yes", "id": f"stuck-{step.id}"},
            ),
            h("label", {"for": f"stuck-{step.id}"}, STUCK),
        ),
        h("p", {"class": "wrong"}, refused_words(problem)) if problem else None,
        _buttons(step),
    )


def _buttons(step: Step) -> Element:
    label = {"aria-label": f"Leave it out: {step.title}"}
    return h(
        "p",
        {"class": "row"},
        h("button", {"type": "submit", "class": "answer"}, "Enter"),
        button("Leave it out", {**label, **puts("set", adjustment=step.id)}),
    )


def _wanted(
    setting: Setting, step: Step, number: int, wanted: WantedText, typed: tuple[str, str]
) -> Element:
    """Return the two fields of one thing wanted."""
    where = f"{wanted.at}: {wanted.said}" if wanted.at else wanted.said
    fields = [
        h(
            "span",
            None,
            h("label", {"for": f"{when}-{number}-{step.id}"}, words),
            _field(setting, step, f"{when}-{number}", wanted, said),
        )
        for (when, words), said in zip(WHENS.items(), typed, strict=True)
    ]
    hint = f"{EXAMPLES.get(wanted.answer, '')}{_unit_hint(wanted)}".strip()
    return h(
        "fieldset",
        {"class": "wanted-pair"},
        h("legend", None, where),
        h("div", {"class": "row"}, fields),
        h("small", None, hint) if hint else None,
    )


def _unit_hint(wanted: WantedText) -> str:
    """Return in which unit a number is taken."""
    if wanted.right_mhz is not None and wanted.unit:
        return f" What the counter shows, such as {wanted.right_mhz:.6f} MHz."
    unit = wanted.errors[0].unit if wanted.errors else wanted.unit
    return f" In {unit}, or with its own unit." if unit else ""


def _field(setting: Setting, step: Step, name: str, wanted: WantedText, said: str) -> Element:
    """Return a field to type in, or the choice between outcomes."""
    attributes = {"id": f"{name}-{step.id}", "name": name, "autocomplete": "off"}
    outcomes = _outcomes(setting, step, wanted)
    if outcomes is None:
        return h("input", {"type": "text", "value": said, **attributes})
    options = [
        h("option", {"value": value, "selected": value == said}, words)
        for value, words in {"": "–", **outcomes}.items()
    ]
    return h("select", attributes, options)


def _outcomes(setting: Setting, step: Step, wanted: WantedText) -> dict[str, str] | None:
    """Return what can be chosen, None where a number is typed."""
    if wanted.answer == "yes":
        return {"yes": "Yes", "no": "No"}
    if wanted.answer != "outcome":
        return None
    return setting.model.checks[wanted.check or step.setting.check].outcomes


def _result(setting: Setting, standing: Standing) -> Element | None:
    """Return what was read and what that says, with the ways on."""
    step, judged = standing.step, standing.judged
    if judged is None:
        return None
    rows = [h("li", None, f"{_head(row.wanted)}{held_words(row)}.") for row in judged.rows]
    return h(
        "div",
        {"class": "told-of-step"},
        h("ul", {"id": f"told-{step.id}", "tabindex": "-1"}, rows),
        _leads_back(setting, standing),
        button(
            "Take the latest visit back",
            {"aria-label": f"Take the latest visit back: {step.title}"}
            | puts("unset", adjustment=step.id),
        ),
    )


def _head(wanted: WantedText) -> str:
    return f"{wanted.at}: " if wanted.at else ""


def _leads_back(setting: Setting, standing: Standing) -> Element | None:
    """Return the way from what will not come right to the search for the fault behind it."""
    if standing.state not in ("stuck", "off"):
        return None
    inputs = evidence(setting.model, standing)
    if setting.sheet.is_whole and inputs:  # or the sheet would shrink to what this upsets
        inputs.append({"do": "set-up-sheet", "sheet": EVERYTHING})
    words = (
        "An adjustment that does not reach its value points to a fault behind it. What was read "
        "here is evidence of it."
    )
    enter = {
        "id": f"find-{standing.step.id}",
        "data-act": "enter-all",
        "data-inputs": packed(inputs),
    }
    back = shows("check-title", screen="bench", check=None)
    return h(
        "div",
        {"class": "leads-back"},
        h("p", None, words),
        button("Enter it as evidence, and find the fault", enter)
        if inputs
        else button("Back to finding the cause", back),
    )
