"""What is wrong in the owner's own words: a box to type in, and what it seems to say, to tick."""

from collections.abc import Mapping
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
from engine.diagnosis.messages.kit_words import AtHand, instruments_in
from engine.diagnosis.messages.replies import own_lines
from engine.diagnosis.messages.sentences import symptoms_in, titled
from engine.diagnosis.model import CheckText, SetModel
from engine.words.matching import Candidate
from web.views.frame import tick
from web.views.markup import Child, h, puts, shows

NOTHING = (
    "Nothing found in these words. Say it in others, one thing a sentence, or look in the list "
    "below."
)
EXAMPLE = "Such as: it hears fine but nobody hears me, and the needle does not move."
THERE = "Tick what you meant"
NOT_THERE = "What you said is fine, or is not so"
AT_HAND = "What there is to measure with"
NONE_AT_HAND = "They say that they have nothing to measure with."
LONGEST = 3000  # letters that are read; more is no complaint but a story


def own_words(
    model: SetModel, said: str, found: Mapping[str, Finding], kit: frozenset[str] = frozenset()
) -> Element:
    """Return the box and, once something was said, its candidates; none is ticked by itself.

    What is said stays with the case; a stranger's whole message can be pasted.
    """
    said = said[:LONGEST]
    rows = str(min(max(2, len(said) // 60, said.count("\n") + 1), 12))
    return h(
        "section",
        {"class": "own-words", "aria-labelledby": "own-words-label"},
        h(
            "form",
            {"id": "own-words", **puts("message"), **shows("heard", words="")},
            h(
                "label",
                {"for": "words", "id": "own-words-label"},
                h("b", None, "Say it in your own words, or paste somebody's message"),
                h("small", None, EXAMPLE),
            ),
            h("textarea", {"id": "words", "name": "text", "rows": rows}, said),
            h("button", {"type": "submit", "id": "understand"}, "Find it in the list"),
        ),
        _heard(model, said, found, kit) if said.strip() else None,
    )


def _heard(
    model: SetModel, said: str, found: Mapping[str, Finding], kit: frozenset[str]
) -> Element:
    text = "\n".join(own_lines(said))
    candidates = symptoms_in(model, text)
    there = [each for each in candidates if each.is_there]
    denied = [each for each in candidates if not each.is_there]
    at_hand = instruments_in(model, text)
    parts: list[Child] = [
        *_rows(THERE, model, there, found),
        *_rows(NOT_THERE, model, denied, found),
        *_instruments(model, at_hand, kit),
    ]
    return h(
        "div",
        {"id": "heard", "class": "heard", "role": "group", "tabindex": "-1"}
        | {"aria-label": "What was found in your words"},
        None if candidates else h("p", None, NOTHING),
        parts,
    )


def _instruments(model: SetModel, at_hand: AtHand, kit: frozenset[str]) -> list[Element]:
    """Return the instruments that were spoken of, to tick."""
    rows = [
        tick(
            f"heard-{name}",
            name in kit,
            (model.instruments[name].title, f"You said: \u201c{words}\u201d"),
            ({"do": "have", "instrument": name}, {"do": "lack", "instrument": name}),
        )
        for name, words in at_hand.has.items()
    ]
    if not rows:
        return [h("p", None, NONE_AT_HAND)] if at_hand.is_nothing else []
    return [h("p", None, h("b", None, AT_HAND)), *rows]


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
