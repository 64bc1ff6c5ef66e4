"""What is wrong in the owner's own words: a box to type in, and what it seems to say, to tick."""

from collections.abc import Mapping
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.sentences import symptoms_in, titled
from engine.words.matching import Candidate
from web.views.frame import tick
from web.views.markup import Child, h, shows

NOTHING = (
    "Nothing found in these words. Say it in others, one thing a sentence, or look in the list "
    "below."
)
EXAMPLE = "Such as: it hears fine but nobody hears me, and the needle does not move."
THERE = "Tick what you meant"
NOT_THERE = "And what you said is not so"
LONGEST = 2000  # letters that are read; more is no complaint but a story


def own_words(model: SetModel, said: str, found: Mapping[str, Finding]) -> Element:
    """Return the box and, once something was said, its candidates; none is ticked by itself."""
    said = said[:LONGEST]
    return h(
        "section",
        {"class": "own-words", "aria-labelledby": "own-words-label"},
        h(
            "form",
            {"id": "own-words", **shows("heard")},
            h(
                "label",
                {"for": "words", "id": "own-words-label"},
                h("b", None, "Say it in your own words"),
                h("small", None, EXAMPLE),
            ),
            h("textarea", {"id": "words", "name": "words", "rows": "2"}, said),
            h("button", {"type": "submit", "id": "understand"}, "Find it in the list"),
        ),
        _heard(model, said, found) if said.strip() else None,
    )


def _heard(model: SetModel, said: str, found: Mapping[str, Finding]) -> Element:
    candidates = symptoms_in(model, said)
    there = [each for each in candidates if each.is_there]
    denied = [each for each in candidates if not each.is_there]
    parts: list[Child] = [
        *_rows(THERE, model, there, found),
        *_rows(NOT_THERE, model, denied, found),
    ]
    return h(
        "div",
        {"id": "heard", "class": "heard", "role": "group", "tabindex": "-1"}
        | {"aria-label": "What was found in your words"},
        parts if candidates else h("p", None, NOTHING),
    )


def _rows(
    title: str, model: SetModel, candidates: list[Candidate], found: Mapping[str, Finding]
) -> list[Element]:
    if not candidates:
        return []
    rows = [_row(model.checks[c.question], c, found.get(c.question)) for c in candidates]
    return [h("p", None, h("b", None, title)), *rows]


def _row(check: CheckText, candidate: Candidate, finding: Finding | None) -> Element:
    """Return one candidate to tick, with the words it was taken from."""
    return tick(
        f"heard-{check.id}",
        finding is not None and finding.outcome == candidate.answer,
        (titled(check, candidate.answer), f"{check.asks} You said: \u201c{candidate.words}\u201d"),
        (
            {"do": "answer", "check": check.id, "said": candidate.answer},
            {"do": "withdraw", "check": check.id},
        ),
    )
