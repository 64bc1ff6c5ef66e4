"""The help desk's letter, the owner's sheet, and what came back."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import pytest

from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model
from tests.conftest import FAMILY, ModelOf
from tests.web.test_views import after
from web import answering, desk
from web.build.families import catalogue
from web.desk_message import answer_letter, owners_part, question_letter
from web.links import Link, case_code, link_in, linked
from web.replaying import is_replayable, replay
from web.views.bench import bench_screen
from web.views.desk.sheet import sheet_screen
from web.views.markup import html
from web.views.qr_code import qr_code
from web.views.shelf.row import case_row
from web.views.state import Shown

BASE = "https://some.where/"
ASKED = ((1, "sender.weak"), (2, "past.fell"))
VIEW = {"screen": "desk", "case_id": "7", "base": BASE}
CODE = case_code("7")


@pytest.fixture
def open_desk(
    small_model: SetModel, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[None]:
    """Let the answering side know the tiny set, as a built site would."""
    (tmp_path / "catalogue.json").write_bytes(catalogue({"beacon": small_model}, "1.2.3"))
    monkeypatch.setattr(answering, "HERE", tmp_path)
    monkeypatch.setattr(desk, "MODELS", answering.MODELS)
    answering.catalogue.cache_clear()
    answering.learn("beacon", dump_model(small_model))
    yield
    answering.MODELS.pop("beacon")
    answering.catalogue.cache_clear()


def ask(verb: str, **args: Any) -> Any:
    """Return the reply of the desk to one request."""
    return json.loads(desk.answer(json.dumps({"id": 1, "verb": verb, "args": args})))


def log(*inputs: Any) -> Any:
    """Return a case of the tiny set: eyes and ears only."""
    return {"format": 1, "family": "beacon", "inputs": list(inputs)}


def shown(view: dict[str, Any], *inputs: Any) -> str:
    """Return <main> for a view of a case."""
    return str(ask("show", log=log(*inputs), view={**VIEW, **view})["answer"]["html"])


def letter_in(html: str) -> str:
    """Return the text that is ready to be sent."""
    return html.partition('<textarea id="letter" readonly="" rows="12">')[2].partition("<")[0]


def test_the_letter_has_lettered_answers_and_a_link(small_model: SetModel) -> None:
    """Greeting, questions, how to reply, the link and the code, as plain text."""
    assert question_letter(small_model, ASKED, "K7QF", f"{BASE}#dj1.x", "on") == (
        "Hello,\n\n"
        "thank you for writing about your set. To see what is wrong with it, please answer two "
        "questions. It takes about 3 minutes. No need to open the set. Leave out whatever you "
        "would rather not do.\n\n"
        "1. Others hear the set weakly\n"
        "   Do others hear you weakly?\n"
        "   1a  As loud as ever\n"
        "   1b  Faint\n"
        "   1c  Nothing at all\n"
        "   1d  I cannot check this, or am not sure\n\n"
        "2. The set has fallen\n"
        "   Has the set ever been dropped?\n"
        "   2a  Yes\n"
        "   2b  No\n"
        "   2c  I cannot check this, or am not sure\n\n"
        "How to answer: send back the numbers with their letters, such as “1b 2a”. Your own words "
        "are welcome after them.\n\n"
        "Or open this link, tap your answers there and send back what it gives you:\n"
        "https://some.where/#dj1.x\n\n"
        "Your case is called K7QF. Please leave that in your answer."
    )


def test_cautions_come_before_the_step(model_of: ModelOf) -> None:
    """In the letter as on the screen; a keyed check says that the rules come first."""
    text = question_letter(model_of(FAMILY), ((1, "lamps.transmit-lit"),), "K7QF", BASE, "on")
    assert text.index("FIRST: Load or aerial before keying.") < text.index("1a  ")
    assert "FIRST: Key for seconds." in text
    assert "Where rules or a licence say who may transmit" in text


def test_a_caution_stands_in_full_once(model_of: ModelOf) -> None:
    """Later questions name it and say where it stands; the sheet does the same."""
    asked = ((1, "lamps.transmit-lit"), (2, "meter.meter-on-transmit"))
    text = question_letter(model_of(FAMILY), asked, "K7QF", BASE, "on")
    assert text.count("Never press the button with nothing on the aerial socket") == 1
    second = text[text.index("2. Meter while transmitting") :]
    assert (
        "   FIRST: Load or aerial before keying. As told at question 1: it holds here as well.\n"
        "   FIRST: Key for seconds. As told at question 1: it holds here as well.\n"
    ) in second
    link = Link(FAMILY, (), "K7QF", asked)
    sheet = html(*filter(None, sheet_screen(model_of(FAMILY), link, Shown(screen="sheet"))))
    assert sheet.count("Never press the button with nothing on the aerial socket") == 1
    assert sheet.count("As told at question 1: it holds here as well.") == 2


def test_a_number_is_asked_for_in_its_unit(model_of: ModelOf) -> None:
    """With its unit, and a question mark for who cannot say."""
    text = question_letter(model_of(FAMILY), ((3, "supply.supply-volts"),), "K7QF", BASE, "on")
    assert "   3  then the number, in V\n   3?  I cannot check this, or am not sure" in text
    assert "such as “3 12.4 V”" in text


@pytest.mark.usefixtures("open_desk")
def test_the_desk_proposes_questions_and_writes_the_letter() -> None:
    """The link in it opens the sheet with the same questions under the same numbers."""
    html = shown({})
    link = link_in(letter_in(html))
    assert link is not None
    assert link.code == CODE
    assert [number for number, _ in link.asked] == [1, 2]
    assert html.count('<li id="question-') == 2
    reply = ask("desk-open", text=letter_in(html), ids=["7"])["answer"]
    assert (reply["view"]["screen"], reply["case"]) == ("sheet", None)


@pytest.mark.usefixtures("open_desk")
def test_what_was_asked_is_waited_for_and_keeps_its_number() -> None:
    """Until all is answered; other questions can be asked and are numbered on."""
    asked = {"do": "asked", "checks": ["supply.dark", "past.fell"]}
    answered = {"do": "answer", "check": "supply.dark", "said": "no"}
    html = shown({}, asked, answered)
    assert "Asked, and not answered yet" in html
    assert "2. The set has fallen" in html
    anew = shown({"is_anew": True}, asked, answered)
    assert "3. Others hear the set weakly" in anew


@pytest.mark.usefixtures("open_desk")
def test_a_reply_is_shown_before_it_is_entered() -> None:
    """Read answers are chosen, unclear ones told with why, other words offered to tick."""
    asked = {"do": "asked", "checks": ["sender.weak", "past.fell"]}
    html = shown({"reply": "1b, 2x. There is no lamp that lights"}, asked)
    assert '<option value="faint" selected="">Faint</option>' in html
    assert "“2x”: Question 2 has the letters a to c." in html.replace(
        "“2x. There is no lamp that lights”", "“2x”"
    )
    assert 'id="also-supply.dark"' in html


@pytest.mark.usefixtures("open_desk")
def test_the_owner_fills_in_a_sheet() -> None:
    """First the questions alone; then a text to send, which the desk reads either way."""
    text = linked(log(), CODE, ASKED)
    view = {"screen": "sheet", "link": text, "family": "beacon"}
    assert "Send this back" not in shown(view)
    assert "Nothing is answered yet." in shown({**view, "is_filled": True})
    html = shown({**view, "is_filled": True, "answers": {"sender.weak": "faint"}})
    letter = letter_in(html)
    assert f"Answers to case {CODE}\n1b  Others hear the set weakly: Faint\n" in letter
    assert "Question 2 is not answered." in letter
    opened = ask("desk-open", text=letter, ids=["6", "7"])["answer"]
    assert (opened["view"]["screen"], opened["case"]) == ("link", "7")
    back = shown({"reply": letter}, {"do": "asked", "checks": [check for _, check in ASKED]})
    assert '<option value="faint" selected="">Faint</option>' in back
    assert "Taken from the link in the answer." in back


@pytest.mark.usefixtures("open_desk")
def test_an_answer_without_its_case_opens_as_one_of_its_own() -> None:
    """The case of the link with the answers entered, in the shape of any log."""
    text = linked(log(), CODE, ASKED, {"past.fell": "yes"})
    assert "It answers a case that is not in this browser" in shown(
        {"screen": "link", "link": text, "family": "beacon"}
    )
    found = ask("desk-log", text=text)["answer"]["log"]
    assert is_replayable(found["inputs"])
    state = replay(answering.MODELS["beacon"], found["inputs"])
    assert [(each.check, each.outcome) for each in state.case.findings] == [("past.fell", "yes")]


@pytest.mark.usefixtures("open_desk")
@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("#dj1.AAAA", "This link is damaged or was cut short on its way."),
        (linked({"family": "plough", "inputs": []}), "no knowledge of the set 'plough'."),
        (linked({"family": "own/x", "inputs": []}), "rests on knowledge somebody wrote"),
        ("#top", "There is no case in this link."),
    ],
    ids=["damaged", "unknown set", "own knowledge", "no link"],
)
def test_a_link_that_cannot_be_used_says_why(text: str, words: str) -> None:
    """In words for a person."""
    assert words in ask("desk-open", text=text, ids=[])["problem"]["words"]


def test_answers_of_a_reply_are_one_step(small_model: SetModel) -> None:
    """One input, so that one undo takes them back; what cannot be used is set aside and said."""
    reply = {
        "do": "reply",
        "text": "1b 2a",
        "answers": [["sender.weak", "faint"], ["past.fell", "perhaps"]],
    }
    state = replay(small_model, [{"do": "message", "text": "It is dead"}, reply])
    assert [each.check for each in state.case.findings] == ["sender.weak"]
    assert state.set_aside == ("past.fell: 'perhaps'",)
    assert (state.letters.message, state.letters.replies) == ("It is dead", ("1b 2a",))
    assert state.before is not None
    assert state.before.findings == ()


@pytest.mark.parametrize(
    "wrong",
    [
        {"do": "reply", "text": "x"},
        {"do": "reply", "text": "x", "answers": [["a"]]},
        {"do": "asked", "checks": "a"},
        {"do": "message"},
    ],
    ids=["no answers", "half an answer", "no list", "no text"],
)
def test_letters_in_a_damaged_file_are_refused(wrong: dict[str, Any]) -> None:
    """Their shape is checked as that of every other input."""
    assert not is_replayable([wrong])


def test_an_answer_letter_says_what_could_not_be_checked(small_model: SetModel) -> None:
    """A question mark, which is read as that."""
    link = Link("beacon", (), "K7QF", ASKED)
    text = answer_letter(small_model, link, {"past.fell": "cannot-check"}, f"{BASE}#dj1.x")
    assert text == (
        "Answers to case K7QF\n"
        "Question 1 is not answered.\n"
        "2?  The set has fallen: cannot say\n\n"
        "The same as a link:\n"
        "https://some.where/#dj1.x"
    )


def test_the_words_of_the_letter_are_not_taken_for_the_owners(small_model: SetModel) -> None:
    """Of what the sheet made only number and letter are left, and what was added by hand."""
    link = Link("beacon", (), "K7QF", ASKED)
    text = answer_letter(small_model, link, {"past.fell": "no"}, f"{BASE}#dj1.x")
    names = [check for _, check in ASKED]
    own = owners_part(small_model, names, f"Thanks!\n{text}\nNo lamp lights")
    assert own.split() == ["Thanks!", "2b", "No", "lamp", "lights"]


def test_a_code_is_drawn_dark_on_a_white_ground() -> None:
    """With the quiet zone of the standard; a text too long for any code gives none."""
    picture = qr_code("#dj1.x", "The link")
    assert picture is not None
    assert picture.get("viewBox") == "0 0 29 29"  # 21 modules and 4 on each side
    path = picture.find("path")
    assert isinstance(path, Element)
    assert str(path.get("d")).startswith("M4 4h7v1h-7z")  # the first finder pattern
    assert qr_code("x" * 3000, "The link") is None


def test_the_shelf_tells_the_code_an_owner_was_given() -> None:
    """A letter that comes back names it, so the case is found by it; before that nobody has it."""
    asked = [{"do": "asked", "checks": ["sender.weak"]}]
    record = {"id": "7", "log": log(*asked), "status": "waiting"}
    row = html(case_row(record, Shown(), {}))
    assert f" · case {CODE}" in row
    (words,) = re.findall(r'data-words="([^"]*)"', row)
    assert CODE.lower() in words.split()
    assert CODE not in html(case_row({**record, "log": log()}, Shown(), {}))


def test_the_bench_tells_how_a_case_by_letter_stands(small_model: SetModel) -> None:
    """How many questions wait, and the way to the next letter; nothing where none was sent."""
    asked = {"do": "asked", "checks": ["sender.weak", "past.fell"]}
    replies = [{"do": "reply", "text": "1b", "answers": [["sender.weak", "faint"]]}]
    replies += [{"do": "reply", "text": "2b", "answers": [["past.fell", "no"]]}]
    words = [
        "2 of the 2 questions asked have no answer yet.",
        "1 of the 2 questions asked has no answer yet.",
        "All that was asked is answered.",
    ]
    for count, told in enumerate(words):
        card = html(*bench_screen(after(small_model, asked, *replies[:count]), Shown()))
        assert f"<b>The set is with its owner. </b>{told}" in card
    assert "at-owner" not in html(*bench_screen(after(small_model), Shown()))
