"""The screen of the help desk: what to ask the owner, the letter, and what came back."""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Case
from engine.diagnosis.messages.asking_back import Questions, asking_back
from engine.diagnosis.model import SetModel
from web.desk_message import question_letter
from web.links import case_code, linked
from web.views.desk.letter import letter_box
from web.views.desk.reply import reply_box
from web.views.frame import heading, steps
from web.views.markup import button, h, shows
from web.views.own.unticked import unticked
from web.views.state import Bench, Shown
from web.views.words import listed, minutes, worth

LEAD = (
    "Somebody else has the set. Ask two or three things at once: those that together tell most, "
    "and that an owner can safely do."
)
NONE_LEFT = (
    "There is nothing left that this owner can safely be asked for. More tools, or the set on "
    "your own bench, give more."
)


def desk_screen(bench: Bench, shown: Shown, log: Mapping[str, Any]) -> list[Element | None]:
    """Return the screen; while questions have no answer yet, those are shown again."""
    waiting = [check for check in bench.letters.asked if _is_open(bench, check)]
    is_waiting = bool(waiting) and not shown.is_anew
    asked, adds = waiting, []
    if not is_waiting:
        questions = _chosen(bench.model, bench.case, frozenset({*shown.left_out, *waiting}))
        asked, adds = list(questions.checks), list(questions.adds_bits)
    known = (*bench.letters.asked, *(each for each in asked if each not in bench.letters.asked))
    numbered = [(known.index(check) + 1, check) for check in asked]
    return [
        steps("desk"),
        heading("Write to the owner"),
        h("p", {"class": "lead"}, LEAD),
        unticked(bench),
        _kit(bench),
        _questions(bench, numbered, adds, shown),
        _letter(bench, numbered, shown, log, is_waiting) if asked else None,
        reply_box(bench, known, shown),
        _handing_on(shown, log),
    ]


@lru_cache(maxsize=8)  # some dozens of passes; the same are wanted when a code is shown
def _chosen(model: SetModel, case: Case, left_out: frozenset[str]) -> Questions:
    return asking_back(model, case, left_out)


def _is_open(bench: Bench, check: str) -> bool:
    return check in bench.model.checks and bench.finding(check) is None


def _kit(bench: Bench) -> Element:
    """Return what the owner is taken to have."""
    have = [bench.model.instruments[each].title for each in sorted(bench.case.kit.instruments)]
    words = f"The owner has: {listed(have) or 'eyes and ears only'}. "
    lid = "The lid stays on." if bench.case.kit.lid == "on" else "The lid may come off."
    change = button("Change that", {"id": "desk-kit", **shows("title", screen="kit")})
    return h("p", {"class": "row"}, words + lid, change)


def _questions(
    bench: Bench, numbered: Sequence[tuple[int, str]], adds: Sequence[float], shown: Shown
) -> Element:
    """Return the questions in short, each with a way to be rid of it."""
    if not numbered:
        return h("p", {"class": "verdict"}, NONE_LEFT)
    rows = [
        _row(bench, number, check, adds[place] if adds else None, shown)
        for place, (number, check) in enumerate(numbered)
    ]
    title = "What to ask" if adds else "Asked, and not answered yet"
    others = button("Ask other things", {"id": "anew", **shows("title", is_anew=True)})
    return h(
        "section",
        {"class": "card", "aria-labelledby": "asked-title"},
        h("h2", {"id": "asked-title"}, title),
        h("ul", {"class": "rows"}, rows),
        None if adds else others,
    )


def _row(bench: Bench, number: int, name: str, adds_bits: float | None, shown: Shown) -> Element:
    check = bench.model.checks[name]
    told = "" if adds_bits is None else f"{worth(adds_bits)} beside the others · "
    drop = button(
        "Ask something else",
        {"id": f"drop-{name}", "aria-label": f"Ask something else than: {check.title}"}
        | shows("asked-title", left_out=[*shown.left_out, name]),
    )
    return h(
        "li",
        {"id": f"question-{name}"},
        h("span", None, h("b", None, f"{number}. {check.title}"), h("br"), check.asks),
        h("small", None, f"{told}{minutes(check.minutes)}"),
        drop if adds_bits is not None else None,
    )


def _letter(
    bench: Bench,
    numbered: Sequence[tuple[int, str]],
    shown: Shown,
    log: Mapping[str, Any],
    is_waiting: bool,
) -> Element:
    code = case_code(shown.case_id)
    link = shown.base + linked(log, code, numbered)
    text = question_letter(bench.model, numbered, code, link, bench.case.kit.lid)
    title = "The letter once more" if is_waiting else "The letter"
    return letter_box(title, text, link, shown, {"do": "asked", "checks": [c for _, c in numbered]})


def _handing_on(shown: Shown, log: Mapping[str, Any]) -> Element:
    """Return the link to the case itself, for somebody who goes on with it."""
    link = shown.base + linked(log)
    return h(
        "details",
        {"id": "hand-on"},
        h("summary", None, "Hand the whole case to somebody else"),
        h(
            "p",
            None,
            "This link opens it as a case of its own: what was found and the kit, without the "
            "owner's letters and your notes.",
        ),
        h("label", {"for": "case-link"}, "Link to the case"),
        h("textarea", {"id": "case-link", "readonly": True, "rows": "3"}, link),
        button("Copy the link", {"data-act": "copy-case-link", "id": "copy-case-link"}),
    )
