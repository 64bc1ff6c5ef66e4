"""The check at hand: cautions first, then how it is done, then how it is answered."""

from xml.etree.ElementTree import Element

from engine.diagnosis.case import CANNOT_CHECK, Finding
from engine.diagnosis.entry import understood
from engine.diagnosis.model import CheckText
from web.views.findings import limit_words
from web.views.frame import cautions
from web.views.keys import key, shortcut
from web.views.markup import button, h, puts, shows
from web.views.otherwise import otherwise
from web.views.refused import refused_words
from web.views.state import Bench, Shown, said
from web.views.stopping import SIMPLE, when_to_stop
from web.views.words import LIDS, MODES, listed, minutes, worth


def check_at_hand(bench: Bench, shown: Shown) -> Element:
    """Return the card of the check to make now."""
    check = bench.check_at_hand(shown)
    if check is None:
        return _none_left()
    found, before = bench.finding(check.id), bench.found_before(check.id)
    return h(
        "section",
        {
            "class": "check card",
            "id": "check",
            "data-check": check.id,
            "aria-labelledby": "check-title",
        },
        h("p", {"class": "over"}, _over(found, before)),
        h("p", {"class": "hint", "data-later": "all-the-same", "id": "all-the-same"}),
        h("h2", {"id": "check-title", "tabindex": "-1"}, check.title),
        _worth(bench, check),
        h("div", {"class": "tells", "data-later": "tells", "id": "tells"}),
        cautions(bench.model, check.cautions, read=_cautions_read(bench, check)),
        when_to_stop(bench.case.kit, check),
        _how(bench, check),
        h("div", {"data-later": "picture", "id": "picture"}),
        h("p", {"class": "asks", "id": "asks"}, check.asks),
        _was(bench, before),
        _answers(bench, check, found),
        h("div", {"class": "effects", "data-later": "effects", "id": "effects"}),
    )


def _cautions_read(bench: Bench, check: CheckText) -> frozenset[str]:
    """Return the cautions of steps made in this case; none for whoever has little."""
    if bench.case.kit.instruments <= SIMPLE:
        return frozenset()
    found = [bench.model.checks[each.check] for each in bench.case.all_findings()]
    made = [each for each in found if each.kind != "symptom" and each is not check]
    return frozenset(caution for each in made for caution in each.cautions)


def _over(found: Finding | None, before: Finding | None) -> str:
    if found:
        return "Change a finding"
    return "Check again" if before else "Check next"


def _was(bench: Bench, before: Finding | None) -> Element | None:
    """Return what a check said of the set as it was before a repair."""
    words = before and f"Before the repair: {said(bench.model, before)}."
    return h("p", {"class": "understood", "id": "was"}, words) if words else None


def _none_left() -> Element:
    return h(
        "section",
        {"class": "check card", "id": "check"},
        h("h2", {"id": "check-title", "tabindex": "-1"}, "No check is left"),
        h(
            "p",
            None,
            "Everything your instruments allow has been done. "
            "More instruments, or the lid off, give more checks.",
        ),
        button("Change what you have", shows("title", screen="kit")),
    )


def _worth(bench: Bench, check: CheckText) -> Element:
    """Return what the check is worth and what it costs."""
    advised = next((each for each in bench.step.checks if each.id == check.id), None)
    words = [worth(advised.gain_bits).capitalize()] if advised else []
    words += [f"about {minutes(check.minutes)}", MODES[check.mode].lower(), LIDS[check.lid]]
    return h("p", {"class": "worth"}, " · ".join(words))


def _how(bench: Bench, check: CheckText) -> Element:
    needs = [bench.model.instruments[each].title for each in check.needs]
    rows = (
        ("With", listed(needs)),
        ("Where", check.where),
        ("How", check.how),
        ("Into", check.load),
        ("Right", check.right),
        ("You may see", check.may_see),
        ("Never done this?", check.plain),
    )
    terms = [(h("dt", None, name), h("dd", None, words)) for name, words in rows if words]
    return h("dl", {"class": "how"}, [part for pair in terms for part in pair])


def _answers(bench: Bench, check: CheckText, found: Finding | None) -> Element:
    entry = _number(bench, check, found) if check.unit else _outcomes(check, found)
    return h(
        "div",
        {"class": "answers", "role": "group", "aria-labelledby": "asks"},
        _found(bench, found),
        entry,
        h(
            "p",
            {"class": "row"},
            button(
                "Cannot check, or not sure",
                {
                    "id": "cannot",
                    "aria-pressed": _pressed(found, CANNOT_CHECK),
                    "aria-keyshortcuts": "N",
                    **_answer(check, CANNOT_CHECK),
                },
                h("kbd", {"aria-hidden": "true"}, "N"),
            ),
            button("Back to the best check", shows("check-title", check=None)) if found else None,
        ),
    )


def _found(bench: Bench, found: Finding | None) -> Element | None:
    if found is None:
        return None
    words = understood(bench.model, found) or said(bench.model, found)
    limit = limit_words(bench, found)
    return h(
        "p",
        {"class": "understood"},
        f"Entered so far: {found.said}, understood as “{words}”.{limit and f' {limit}.'}",
    )


def _answer(check: CheckText, outcome: str) -> dict[str, object]:
    """Return what an answer button does; the next check is then picked anew."""
    return {**puts("answer", check=check.id, said=outcome), **shows("check-title", check=None)}


def _pressed(found: Finding | None, outcome: str) -> str | None:
    return ("true" if found.outcome == outcome else "false") if found else None


def _outcomes(check: CheckText, found: Finding | None) -> Element:
    rows = [
        button(
            title,
            {
                "class": "answer",
                "id": f"answer-{outcome}",
                "aria-pressed": _pressed(found, outcome),
                "aria-keyshortcuts": shortcut(number),
                **_answer(check, outcome),
            },
            key(number),
        )
        for number, (outcome, title) in enumerate(check.outcomes.items(), start=1)
    ]
    return h("p", {"class": "row outcomes"}, rows)


def _number(bench: Bench, check: CheckText, found: Finding | None) -> Element:
    """Return the entry of a reading, with what was wrong about the last one."""
    refused = bench.refused if bench.refused and bench.refused.check == check.id else None
    typed = refused.typed if refused else found.said if found and found.is_evidence else ""
    return h(
        "form",
        {"class": "reading", **puts("answer", check=check.id), **shows("check-title", check=None)},
        h("label", {"for": "reading"}, f"Reading in {check.unit}"),
        h(
            "span",
            {"class": "row"},
            _field(typed, is_wrong=refused is not None),
            h("button", {"type": "submit", "class": "answer"}, "Enter"),
        ),
        h("small", {"id": "reading-hint"}, _hint(check)),
        _wrong(refused),
        otherwise(check, bench.model.carriers_mhz),
    )


def _hint(check: CheckText) -> str:
    """Return what can be typed."""
    low, high = check.span or (0.0, 0.0)
    span = f"From {low:g} to {high:g} {check.unit}"
    if check.at is None:
        return f"{span}. A number alone is taken as {check.unit}."
    if check.at.point == "heard":
        return f"{span} off. Type where it is found, such as channel 7, or the frequency."
    shows = f"{check.nominal_mhz:.6g}" if check.unit == "ppm" else f"{check.nominal_mhz:.5f}"
    here = f"{span} off. Type what the counter shows, such as {shows}, or the error with its sign."
    return f"{here} On another channel? Add “on channel 7”." if check.at.channel else here


def _field(typed: str, is_wrong: bool) -> Element:
    return h(
        "input",
        {
            "type": "text",
            "id": "reading",
            "name": "said",
            "value": typed,
            "autocomplete": "off",
            "inputmode": "text",
            "aria-describedby": "reading-hint reading-wrong",
            "aria-invalid": "true" if is_wrong else None,
        },
    )


def _wrong(refused: object) -> Element:
    problem = getattr(refused, "problem", None)
    if problem is None:
        return h("p", {"id": "reading-wrong", "hidden": True})
    return h("p", {"id": "reading-wrong", "class": "wrong"}, refused_words(problem))
