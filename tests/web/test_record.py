"""The record: every part, on paper and as text, through a wrong guess and the right repair."""

import re

import pytest

from engine.diagnosis.model import SetModel
from tests.web.test_mending import FOUND, MENDED, POWER, TITLE, WEAK
from tests.web.test_views import after
from web.views.markup import html
from web.views.part import Part, Row, as_text, on_paper
from web.views.record.sheet import end_parts, paper, summary, work_parts
from web.views.record.work import causes_part, repeated_part, work_part
from web.views.state import Bench, Shown

MESSAGE = {"do": "message", "text": "Nobody  hears me.\nYours, a shepherd"}
RIGHT = {
    "do": "repair",
    "cause": "sender.output-transistor",
    "how": "replaced",
    "at": "2001-02-04T09:00:00",
}
CURED = ({**POWER, "said": "3.8 W"}, {**WEAK, "said": "loud"})
SHOWN = Shown(about={"title": "Set 7", "owner": "Upper fold"})


def parts(bench: Bench) -> list[Part]:
    """Return all parts of the record."""
    return [*work_parts(bench, SHOWN, ()), *end_parts(bench)]


@pytest.fixture
def mended(small_model: SetModel) -> Bench:
    """Return a set with a wrong guess, the right repair, and the checks made again."""
    return after(small_model, MESSAGE, *FOUND, MENDED, POWER, RIGHT, *CURED)


def test_it_tells_the_whole_story(mended: Bench) -> None:
    """Every part is there once, in order."""
    assert [each.title for each in parts(mended)] == [
        "Set: Hill-farm beacon, an invented set",
        "Complaint",
        "Found",
        "Ranked causes, stage by stage",
        "Work done",
        "Before and after",
        "Where it stands",
        "Advice",
        "Cautions for these steps",
        "Signed",
    ]
    shown = html(paper(mended, (), "1.2.3", SHOWN))
    for words in (
        "Owner's reference: Upper fold.",
        "Called: Set 7.",
        "Rules: hill-farm.",
        "In the owner's words: “Nobody hears me. Yours, a shepherd”",
        "Others hear the set weakly: Nothing at all",
        f"Put right: {TITLE}",
        "2001-02-04 09:00",
        f"knowledge {mended.model.version}, rules hill-farm.",
    ):
        assert words in shown


def test_chances_stand_at_every_stage(mended: Bench) -> None:
    """Before each repair and now; what was put right is named first, and says so from then on."""
    part = causes_part(mended)
    assert part.heads == ("Cause", "Before repair 1", "Before repair 2", "Now")
    first, second = part.rows[:2]
    assert (first.head, first.cells[1:]) == (TITLE, ("put right", "put right"))
    assert second.head == "Output transistor failed"
    assert second.cells[2] == "put right"
    before = [float(second.cells[number].split()[0]) for number in (0, 1)]
    assert before[0] < before[1]
    assert all(len(row.cells) == 3 for row in part.rows)


def test_work_done_tells_what_came_of_it(mended: Bench) -> None:
    """The wrong guess changed nothing, the second repair did it; the figures stand beside."""
    part = work_part(mended)
    assert part is not None
    assert [(row.head, row.cells[:2], row.cells[-1]) for row in part.rows] == [
        (
            TITLE,
            ("adjusted", "2001-02-03 11:00"),
            "Most likely it had been right all along: this repair changed nothing.",
        ),
        (
            "Output transistor failed",
            ("replaced", "2001-02-04 09:00"),
            "It had been wrong, and this repair put it right.",
        ),
    ]


def test_readings_stand_before_and_after(mended: Bench) -> None:
    """One column for each time between repairs; what was not made again is not in the table."""
    part = repeated_part(mended)
    assert part is not None
    assert part.heads == ("Check", "Before", "After repair 1", "After repair 2")
    assert [(row.head, row.cells) for row in part.rows] == [
        ("Others hear the set weakly", ("Nothing at all", "", "As loud as ever")),
        ("Power into the dummy load", ("0.02 W", "0.02 W", "3.8 W")),
    ]


def test_one_repair_has_one_column_after_it(small_model: SetModel) -> None:
    """Before and after, as one says."""
    part = repeated_part(after(small_model, *FOUND, MENDED, POWER))
    assert part is not None
    assert part.heads == ("Check", "Before", "After")


def test_without_repair_there_is_no_word_of_it(small_model: SetModel) -> None:
    """No work, nothing before and after; causes have the complaint and now."""
    bench = after(small_model, WEAK, POWER)
    assert (work_part(bench), repeated_part(bench)) == (None, None)
    assert causes_part(bench).heads == ("Cause", "At the complaint", "Now")
    assert "Record of a case" in html(paper(bench, (), "1"))


def test_plain_text_has_every_part_but_the_signatures(mended: Bench) -> None:
    """The same words as on paper, line by line."""
    text = summary(mended, "1.2.3", SHOWN)
    titles = [each.title for each in parts(mended) if not each.is_for_paper]
    found = re.findall(r"^(?!- |\()(.+?):?$", text, re.MULTILINE)
    assert found[:-1] == titles
    assert "- Power into the dummy load: 0.02 W | 0.02 W | 3.8 W" in text
    assert "- Others hear the set weakly: Nothing at all | - | As loud as ever" in text
    assert "Given back to" not in text


def test_a_part_is_the_same_on_paper_and_as_text() -> None:
    """Heads, rows and lines; a hint is for paper."""
    part = Part("Work", ("All well <now>",), ("What", "How"), (Row("Fuse", ("new",), "5 A"),), "w")
    assert as_text(part) == ["", "Work:", "(What | How)", "- Fuse: new", "- All well <now>"]
    assert html(on_paper(part)) == (
        '<section class="part part-w"><h3>Work</h3>'
        '<div class="table-box" tabindex="0" role="region" aria-label="Work">'
        '<table class="found"><thead><tr><th scope="col" class="short brief">What</th>'
        '<th scope="col" class="short brief">How</th></tr>'
        '</thead><tbody><tr><th scope="row"><b>Fuse</b><small> 5 A</small></th>'
        '<td class="short brief">new</td></tr>'
        "</tbody></table></div><ul><li>All well &lt;now&gt;</li></ul></section>"
    )


def test_letters_stand_with_their_dates(small_model: SetModel) -> None:
    """What was asked and what was answered, in order; a copy made twice is one letter."""
    asked = {"do": "asked", "checks": ["sender.weak", "past.fell"], "at": "2001-02-03T08:00:00"}
    again = {**asked, "at": "2001-02-03T08:01:00"}
    answers = [["sender.weak", "faint"]]
    reply = {"do": "reply", "text": "1b", "answers": answers, "at": "2001-02-05T19:30:00"}
    words = {"do": "reply", "text": "It hums.", "answers": [], "at": "2001-02-06T07:00:00"}
    text = summary(after(small_model, asked, again, reply, words), "1")
    assert (
        "Letters:\n"
        "- Asked the owner: Others hear the set weakly; The set has fallen | 2001-02-03 08:00\n"
        "- Owner answered: Others hear the set weakly | 2001-02-05 19:30\n"
        "- Owner answered: In own words | 2001-02-06 07:00\n"
    ) in text
    assert "Letters" not in summary(after(small_model, MESSAGE), "1")
