"""A set that comes back: what it had before, and the switch that lets that count."""

from collections.abc import Mapping
from xml.etree.ElementTree import Element

from engine.diagnosis.model import CauseText
from web.history import Earlier, earlier_cases, visits_input
from web.views.frame import tick
from web.views.markup import h
from web.views.mending import DONE
from web.views.part import Part
from web.views.state import Bench, Shown

NOTHING = "nothing was confirmed"
ABOUT = "The same owner's reference and the same kind of set are on the shelf already."
LET = "Let what this set had before count"
BEWARE = (
    "A part that was replaced then counts as new, what was confirmed then as likelier to come "
    "again, and so does what is usually behind it. Leave it off if this is another set of theirs."
)


def here_before(bench: Bench, shown: Shown) -> Element | None:
    """Return the earlier cases of the set with the switch; None where there are none."""
    earlier = earlier_of(bench, shown)
    if not earlier:
        return None
    on, off = visits_input(earlier), visits_input(())
    return h(
        "section",
        {"class": "card", "id": "here-before", "aria-labelledby": "here-before-title"},
        h("h2", {"id": "here-before-title"}, "This set was here before"),
        h("p", {"class": "hint"}, ABOUT),
        h("ul", None, [h("li", None, words) for words in lines(earlier, bench.model.causes)]),
        tick("history", bool(bench.history), (LET, BEWARE), (on, off)) if on["visits"] else None,
    )


def earlier_of(bench: Bench, shown: Shown) -> tuple[Earlier, ...]:
    """Return the earlier cases of the set on the bench, as the shelf has them."""
    return earlier_cases(shown.about, bench.model.family.id, shown.earlier)


def lines(earlier: tuple[Earlier, ...], causes: Mapping[str, CauseText]) -> list[str]:
    """Return an earlier case each as a line.

    On the shelf no `causes` are at hand: what was put right stands as the shelf has shown it.
    """
    return [_line(each, causes) for each in earlier]


def _line(each: Earlier, causes: Mapping[str, CauseText]) -> str:
    def titled(cause: str) -> str:
        return causes[cause].title if cause in causes else each.confirmed.get(cause, cause)

    words = "; ".join(map(titled, each.confirmed)) or NOTHING
    confirmed = words if each.confirmed else words if each.is_closed else "still open"
    repairs = [f"{titled(cause)} ({DONE.get(how, how)})" for cause, how in each.repairs]
    mended = "; ".join(repairs) if causes else each.mended
    done = f". Put right: {mended}" if mended else ""
    name = f", {each.title}" if each.title else ""
    return f"{each.ended[:10]}{name}: {confirmed}{done}."


def history_words(bench: Bench) -> str:
    """Return that the priors rest on the set's own past; nothing while they do not."""
    number = len(bench.history)
    if not number:
        return ""
    cases = "an earlier case" if number == 1 else f"{number} earlier cases"
    return f"Worked out with priors that {cases} of this very set changed."


def history_note(bench: Bench) -> Element | None:
    """Return that as a note for every screen."""
    words = history_words(bench)
    return h("p", {"class": "private", "role": "note"}, words) if words else None


def here_before_part(bench: Bench, shown: Shown) -> Part | None:
    """Return the earlier cases for the record, and whether they count."""
    earlier = earlier_of(bench, shown)
    if not earlier and not bench.history:
        return None
    counts = history_words(bench) or "Not counted in the chances of this record."
    rows = (*lines(earlier, bench.model.causes), counts)
    return Part("Here before", rows, kind="history")
