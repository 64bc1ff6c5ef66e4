"""The screen that proves a set: the verdict, cautions, rules and instruments, then the points."""

from xml.etree.ElementTree import Element

from engine.proving.words import DEFER, RULE, VERDICTS, caveats, findings_against
from web.views.frame import caution_box, for_a_bench, heading, steps
from web.views.markup import button, h, puts, shows
from web.views.proof.kit import instruments_card, rules_card
from web.views.proof.point import control_id, point_row
from web.views.proof.state import Proving, counted

LEAD = (
    "Measure what the rules ask for, and what a good set does. Each reading is judged at once, "
    "with the error of your instrument allowed for. Type a number, press Enter, and the next field "
    "is ready."
)
NOT_YET = (
    "Nothing can be proved while it is open which kind of set it is. Settle the kind first, at the "
    "bench."
)
NO_INSTRUMENT = (
    "You said that you have no instruments. Then this screen is not for you: it is for a bench, "
    "once the fault is found and mended. Nothing on it helps to find a fault."
)
NO_TABLE = (
    "This set rests on knowledge of your own, and nothing here says what to measure on it before "
    "it is called right."
)


def no_proof_screen(is_open: bool) -> list[Element]:
    """Return the screen of a set that cannot be proved here; `is_open` is its kind."""
    return [
        steps("prove"),
        heading("Prove the set"),
        h("p", {"class": "verdict"}, NOT_YET if is_open else NO_TABLE),
    ]


def proof_screen(proving: Proving) -> list[Element | None]:
    """Return the screen of a set that is proved."""
    texts = list(proving.sheet.cautions.values())
    return [
        steps("prove"),
        heading("Prove the set"),
        None if proving.kit.instruments else for_a_bench(NO_INSTRUMENT),
        h("p", {"class": "lead"}, LEAD),
        _verdict(proving),
        caution_box(texts, "Before the first step"),
        h("p", {"class": "private"}, DEFER),
        rules_card(proving),
        instruments_card(proving),
        h("h2", {"id": "points-title"}, "The points"),
        h("ol", {"class": "points", "aria-labelledby": "points-title"}, _points(proving)),
        _ways_out(proving),
        h("p", {"class": "hint"}, RULE),
    ]


def _points(proving: Proving) -> list[Element]:
    """Return all points; each hands the focus on to the next one without a reading."""
    rows = proving.proof.now.rows
    unread = [place for place, row in enumerate(rows) if row.reading is None]
    following = [
        next((each for each in unread if each > place), None) for place in range(len(rows))
    ]
    focus = [
        control_id(rows[each].point) if each is not None else "proof-verdict" for each in following
    ]
    first = unread[0] if unread else None
    return [point_row(proving, row, focus[place], place == first) for place, row in enumerate(rows)]


def _verdict(proving: Proving) -> Element:
    """Return the verdict on the whole, with why."""
    proved = proving.proof.now
    begun = any(row.reading for row in proved.rows)
    rows = [h("li", None, f"{words}.") for words in findings_against(proved)]
    kind = {"fails": " act", "not-shown": ""}.get(proved.verdict, "")
    return h(
        "section",
        {
            "class": f"verdict{kind}",
            "aria-labelledby": "proof-verdict",
            "data-proof": proved.verdict,
        },
        h(
            "h2",
            {"id": "proof-verdict", "tabindex": "-1", "class": "sentence"},
            VERDICTS[proved.verdict] if begun else "Nothing is measured yet.",
        ),
        h("p", None, f"{counted(proved)}."),
        h("ul", None, rows) if rows else None,
        [h("p", {"class": "hint"}, words) for words in caveats(proved)] if begun else None,
    )


def _ways_out(proving: Proving) -> Element:
    """Return what comes after the last point."""
    again = button(
        "Work was done: measure again",
        {"id": "prove-again", "data-focus": "proof-verdict", **puts("prove-again")},
    )
    hint = h("small", None, "What was read so far is then kept as “before the work”.")
    return h(
        "p",
        {"class": "row"},
        again if proving.log.now else None,
        hint if proving.log.now else None,
        button("To the record", shows("title", screen="record")),
        button("Back to finding the cause", shows("title", screen="bench", check=None)),
    )
