"""The end of what this kit can find: what was done, what would help, where to take it."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.advice import LEADS
from engine.diagnosis.advising.confirming import suspects
from engine.diagnosis.advising.ending import Help, is_worn_out, what_would_help
from web.views.markup import button, h, shows
from web.views.state import Bench
from web.views.verdict import unproved
from web.views.words import listed, percent

GOING_ON = ("measure", "no-check-left")
DONE = "You have done what can be done with this kit."
ALL_THE_SAME = "What is left says hardly more; this is here in case you want to go on."
SO_FAR = "Nothing is sure, and the checks that are left say hardly more about the likeliest causes."

ASK = (
    "To ask: a radio club near you, or a repairer who is licensed or qualified where you live. "
    "Tell them what kind of set it is, what is wrong, and what you found; copied or printed, "
    "the record says all that in plain words."
)


def has_ended(bench: Bench) -> bool:
    """Whether no check would tell a fair amount any more, and nothing is sure enough to act on."""
    if bench.step.verdict.kind not in GOING_ON or not bench.case.evidence():
        return False
    return is_worn_out(bench.model, bench.case, bench.step)


def ending_words(bench: Bench) -> list[str]:
    """Return the same for the record, as lines; none while the kit has not ended."""
    if not has_ended(bench):
        return []
    helps = [_help(bench, each) for each in what_would_help(bench.model, bench.case)]
    would_help = [f"What would help: {each}." for each in helps]
    tried = [words for words, _ in (_to_try(bench),) if words]
    return [f"{DONE} {SO_FAR}", *tried, *would_help, *_first_of_all(bench), ASK]


def ending(bench: Bench) -> Element | None:
    """Return the word that it is time to stop, when no check would tell a fair amount any more."""
    if not has_ended(bench):
        return None
    helps = what_would_help(bench.model, bench.case)
    words, pressed = _to_try(bench)
    return h(
        "div",
        {"class": "ending"},
        h("p", None, h("b", None, f"{DONE} "), SO_FAR),
        h("p", None, words) if words else None,
        h("p", {"class": "row"}, pressed) if words else None,
        h("p", None, "What would help: ") if helps else None,
        h("ul", None, [h("li", None, _help(bench, each)) for each in helps]),
        *[h("p", None, words) for words in _first_of_all(bench)],
        h("p", None, ASK),
        h("p", {"class": "row"}, button("Copy what to tell them", {"data-act": "copy"})),
        h("p", {"class": "row"}, button("Take the record along", shows("title", screen="record"))),
    )


def _to_try(bench: Bench) -> tuple[str, Element | None]:
    """Return what to try, and a button to it: what has more than half, where the lid is off."""
    leading, *_ = suspects(bench.step.causes)
    is_likely = leading.probability >= LEADS and bench.case.kit.lid == "off"
    if not is_likely or unproved(bench, leading.id):
        return "", None
    words = (
        f"“{leading.title}” is likelier than not, {percent(leading.probability)}. If you can do it "
        "safely, putting it right is itself the next test: say so on its card, and you are told "
        "what to check again."
    )
    opened = shows("opened-cause", cause=leading.id)
    return words, button(f"What to do: {leading.title}", opened)


def _first_of_all(bench: Bench) -> list[str]:
    """Return what has to be proved before anybody acts on the likeliest cause, if that is so."""
    leading, *_ = suspects(bench.step.causes)
    first = [f"“{bench.model.checks[each].title}”" for each in unproved(bench, leading.id)]
    if not first:
        return []
    return [
        f"Leave “{leading.title}” as it is until then: whoever goes on proves {listed(first)} "
        "before anything is done about it."
    ]


def _help(bench: Bench, each: Help) -> str:
    names = [bench.model.instruments[name].title for name in each.instruments]
    if each.lid_off:
        names.append("the lid off, by somebody competent")
    words = listed(names)
    return words[:1].upper() + words[1:]
