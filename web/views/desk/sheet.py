"""The owner's screen: only the questions of a link, and then the answer to send back."""

from collections.abc import Mapping
from xml.etree.ElementTree import Element

from engine.diagnosis.case import CANNOT_CHECK
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import CheckText, SetModel
from engine.errors import UnknownReading
from web.desk_message import CANNOT_SAY, answer_letter, caution_at, first_told
from web.links import Link, linked
from web.views.desk.letter import letter_box
from web.views.frame import caution_box, heading
from web.views.markup import button, h
from web.views.refused import refused_words
from web.views.state import Shown
from web.views.words import listed

LEAD = (
    "Somebody is helping you with your set and would like to know the following. Answer what you "
    "can, then send back the text you get. This page sends nothing by itself."
)
NOTHING = "Nothing is answered yet. Choose at least one answer, then press the button again."


def sheet_screen(model: SetModel, link: Link, shown: Shown) -> list[Element | None]:
    """Return the sheet; once it is filled in and every number can be used, the text to send."""
    asked = [(number, model.checks[check]) for number, check in link.asked if check in model.checks]
    said = {check.id: shown.answers.get(check.id, "").strip() for _, check in asked}
    wrong = _wrong(model, said) if shown.is_filled else {}
    first = first_told(asked)
    is_ready = shown.is_filled and not wrong and any(said.values())
    return [
        heading("A few questions about your set"),
        h("p", {"class": "lead"}, LEAD),
        h("p", None, f"Case {link.code}. Set: {model.family.title}."),
        h("p", {"class": "wrong", "role": "alert"}, NOTHING)
        if shown.is_filled and not any(said.values())
        else None,
        _letter(model, link, said, shown) if is_ready else None,
        h(
            "div",
            None,
            [_question(model, n, c, first, (said[c.id], wrong.get(c.id))) for n, c in asked],
        ),
        h(
            "p",
            {"class": "onward"},
            button(
                "Make the answer anew" if is_ready else "Make my answer",
                {"class": "main", "id": "fill", "data-act": "fill-sheet"},
            ),
        ),
    ]


def _letter(model: SetModel, link: Link, said: Mapping[str, str], shown: Shown) -> Element:
    answers = {check: words for check, words in said.items() if words}
    back = shown.base + linked(link.log, link.code, link.asked, answers)
    text = answer_letter(model, link, answers, back)
    return letter_box("Send this back", text, back, shown)


def _wrong(model: SetModel, said: Mapping[str, str]) -> dict[str, str]:
    """Return by check what is wrong about an answer that cannot be used."""
    found = {}
    for check, words in said.items():
        try:
            if words:
                read_answer(model, check, words)
        except UnknownReading as problem:
            found[check] = refused_words(problem)
    return found


def _question(
    model: SetModel,
    number: int,
    check: CheckText,
    first: Mapping[str, int],
    answer: tuple[str, str | None],
) -> Element:
    """Return one question, cautions first; `answer` is what was said and what is wrong about it."""
    said, wrong = answer
    told = [caution_at(model.cautions[each], number, first[each]) for each in check.cautions]
    needs = listed([model.instruments[each].title for each in check.needs])
    rows = (("With", needs), ("Where", check.where), ("How", check.how), ("", check.plain))
    terms = [(h("dt", None, name), h("dd", None, words)) for name, words in rows if words]
    options = _number(number, check, said) if check.unit else _options(number, check, said)
    return h(
        "fieldset",
        {"id": f"sheet-{check.id}"},
        h("legend", None, f"{number}. {check.title}"),
        caution_box(told, "Before you do it", "h2") if told else None,
        h("dl", {"class": "how"}, [part for pair in terms for part in pair]) if terms else None,
        h("p", {"class": "asks"}, check.asks),
        options,
        h("p", {"class": "wrong"}, wrong) if wrong else None,
    )


def _options(number: int, check: CheckText, said: str) -> list[Element]:
    titles = {**check.outcomes, CANNOT_CHECK: CANNOT_SAY}
    return [_option(number, check, value, title, said) for value, title in titles.items()]


def _option(number: int, check: CheckText, value: str, title: str, said: str) -> Element:
    name = f"sheet-{number}-{value}"
    box = {
        "type": "radio",
        "name": f"sheet-{number}",
        "id": name,
        "value": value,
        "checked": value == said,
        "data-answer": check.id,
    }
    return h("div", {"class": "option"}, h("input", box), h("label", {"for": name}, title))


def _number(number: int, check: CheckText, said: str) -> list[Element]:
    name = f"sheet-{number}"
    field = {"type": "text", "id": name, "value": said, "autocomplete": "off"}
    label = h("label", {"for": name}, f"Number, in {check.unit}; leave it empty if you cannot say")
    return [h("div", {"class": "reading"}, label, h("input", {**field, "data-answer": check.id}))]
