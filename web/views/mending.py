"""Putting a cause right: the buttons that tell of it, and what is to be said afterwards."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.advice import WORTH_BITS
from engine.diagnosis.case import HOWS, Repair, usual_how
from engine.diagnosis.model import CauseText
from engine.diagnosis.repairing.again import (
    CHANGED_NOTHING,
    DID_IT,
    Again,
    Mended,
    checks_to_repeat,
)
from web.views.markup import button, h, puts, shows
from web.views.state import Bench, said
from web.views.words import percent, worth

REPEATED = 5  # checks shown that are worth making again
DONE = {
    "replaced": "replaced",
    "adjusted": "adjusted",
    "cleaned": "cleaned",
    "put-back": "put back as it should be",
}
HINT = (
    "Press only once it is done. What was found before then speaks of the set as it was, and you "
    "are told what to check again. It can be taken back later."
)
AGAIN = (
    "They look at what hangs on what was put right, so only they say whether the set has changed."
)
NONE_AGAIN = (
    "Nothing: what was found before the last repair does not hang on it, or would tell hardly "
    "anything if it were checked again."
)


def mend_buttons(bench: Bench, cause: str) -> Element:
    """Return what tells that a cause was put right, the usual way first; or that it was before."""
    text = bench.model.causes[cause]
    before = [each for each in repairs_told(bench) if each[0].cause == cause]
    if before:
        return h("p", {"class": "mended-before"}, f"You have put this right: {before[-1][1]}.")
    hows = sorted(HOWS, key=lambda how: how != usual_how(text.kind))
    return h(
        "div",
        {"class": "mending", "role": "group", "aria-labelledby": f"mending-{cause}"},
        h("h3", {"id": f"mending-{cause}"}, "I have mended it"),
        h("p", {"class": "row"}, [_button(text, how) for how in hows]),
        h("p", {"class": "hint"}, HINT),
    )


def _button(text: CauseText, how: str) -> Element:
    return button(
        DONE[how].capitalize(),
        {
            "id": f"mended-{how}-{text.id}",
            "aria-label": f"{DONE[how].capitalize()}: {text.title}",
            **puts("repair", cause=text.id, how=how),
            **shows("mended-title", screen="bench", check=None, cause=None, block=None),
        },
    )


def repairs_told(bench: Bench) -> list[tuple[Repair, str]]:
    """Return every repair, with how and when it was done."""
    rows = []
    for number, stretch in enumerate(bench.case.past):
        when = bench.when(number)
        how = DONE[stretch.repair.how]
        rows.append((stretch.repair, f"{how}, {when}" if when else how))
    return rows


def mended_card(bench: Bench) -> Element | None:
    """Return what was put right, and what to check again; None where nothing was."""
    if not bench.case.past:
        return None
    return h(
        "section",
        {"class": "card mended", "id": "mended", "aria-labelledby": "mended-title"},
        h("h2", {"id": "mended-title", "tabindex": "-1"}, "Put right so far"),
        h("ol", {"class": "rows"}, _repairs(bench)),
        h("div", {"data-later": "mended", "id": "mended-told"}),
        h("h3", None, "Worth checking again"),
        _again(bench),
        h(
            "p",
            {"class": "row"},
            button(
                "Set up what it upset", {"id": "then-set-up", **shows("title", screen="set-up")}
            ),
            button("Prove the set", {"id": "then-prove", **shows("title", screen="prove")}),
        ),
    )


def _repairs(bench: Bench) -> list[Element]:
    """Return the repairs, each to be taken back; of a cause put right twice the later one."""
    told = repairs_told(bench)
    latest = {repair.cause: number for number, (repair, _) in enumerate(told)}
    return [
        h(
            "li",
            {"data-repair": repair.cause},
            h("span", None, h("b", None, bench.model.causes[repair.cause].title), f": {words}"),
            _take_back(bench, repair) if number == latest[repair.cause] else None,
        )
        for number, (repair, words) in enumerate(told)
    ]


def _take_back(bench: Bench, repair: Repair) -> Element:
    """Return what takes a repair back as if it had never been; what was found stays."""
    label = f"Take back, it was not done: {bench.model.causes[repair.cause].title}"
    press = {**puts("unrepair", cause=repair.cause), **shows("title", screen="bench")}
    return button("Take it back", {"aria-label": label, **press})


def _again(bench: Bench) -> Element:
    """Return the checks to make again, with what they said and what they look at."""
    told = checks_to_repeat(bench.case, bench.step)
    rows = [each for each in told if each.gain_bits >= WORTH_BITS][:REPEATED]
    if not rows:
        return h("p", None, NONE_AGAIN)
    items = [_to_repeat(bench, each) for each in rows]
    return h("div", None, h("p", {"class": "hint"}, AGAIN), h("ul", {"class": "rows"}, items))


def _to_repeat(bench: Bench, each: Again) -> Element:
    check = bench.model.checks[each.before.check]
    signal = bench.model.signals.get(check.looks_at)
    looks_at = f" · looks at: {signal.title.lower()}" if signal else ""
    words = f"before: {said(bench.model, each.before)} · {worth(each.gain_bits)}{looks_at}"
    return h(
        "li",
        {"id": f"again-{check.id}", "data-again": check.id},
        button(check.title, {"class": "pick", **shows("check-title", check=check.id)}),
        h("small", None, words),
    )


def mended_told(bench: Bench, rows: tuple[Mended, ...]) -> list[Element]:
    """Return for each repair how likely it was needed, as known then and by now."""
    return [h("p", {"class": "needed"}, mended_words(bench, each)) for each in rows]


def mended_words(bench: Bench, each: Mended) -> str:
    """Word how likely a cause had been there before it was put right, and whether that did it."""
    title = bench.model.causes[each.repair.cause].title
    start = f"{title}: {percent(each.then)} likely to be wrong when it was put right."
    if _is_unchecked(bench, each):
        return f"{start} {was_needed(bench, each)}"
    return f"{start} By what was found since: {percent(each.now)}. {was_needed(bench, each)}"


def _is_unchecked(bench: Bench, each: Mended) -> bool:
    return each.repair == bench.case.past[-1].repair and not bench.case.evidence()


def was_needed(bench: Bench, each: Mended) -> str:
    """Say whether a repair changed anything."""
    if _is_unchecked(bench, each):
        return "Nothing was checked since."
    if each.now <= CHANGED_NOTHING:
        return "Most likely it had been right all along: this repair changed nothing."
    if each.now >= DID_IT:
        return "It had been wrong, and this repair put it right."
    return "Whether it had been wrong is not clear."
