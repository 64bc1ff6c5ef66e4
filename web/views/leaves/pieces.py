"""What leaves are made of: links to other leaves, lists under a heading, chances in words."""

from collections.abc import Iterable
from functools import lru_cache
from xml.etree.ElementTree import Element

from engine.diagnosis.frequencies.checks import once
from engine.diagnosis.model import CauseText, CheckText, SetModel
from engine.terminal.showing.paragraphs import one_in
from web.views.markup import Child, button, h, shows
from web.views.words import KINDS

CHECK_KINDS = {
    "symptom": "symptom",
    "question": "question",
    "look": "look",
    "reading": "measurement",
}
WHOLE_SET = "The set as a whole"
CARRIES = {"rf": "radio frequency"}  # other kinds of signal are words already


def link(leaf: str, words: str) -> Element:
    """Return what opens another leaf; the focus goes to its heading."""
    return button(words, {"class": "pick", **shows("title", leaf=leaf)})


def rows(heading: str, items: Iterable[Element], hint: str = "") -> Element | None:
    """Return a list under a heading; nothing when it is empty."""
    items = list(items)
    if not items:
        return None
    return h(
        "section",
        None,
        h("h2", None, heading),
        h("p", {"class": "hint"}, hint) if hint else None,
        h("ul", {"class": "rows"}, items),
    )


def row(leaf: str, words: str, *beside: Child) -> Element:
    """Return one link with small print beside it."""
    return h("li", None, link(leaf, words), h("small", None, *beside))


def cause_row(cause: CauseText) -> Element:
    """Return a cause with its kind and chance."""
    return row(f"cause/{cause.id}", cause.title, f"{KINDS[cause.kind]} · {chance(cause.prior)}")


def check_row(check: CheckText) -> Element:
    """Return a check with its kind and what it asks."""
    return row(f"check/{check.id}", check.title, f"{CHECK_KINDS[check.kind]} · {check.asks}")


def signal_row(model: SetModel, signal: str, beside: str = "") -> Element:
    """Return a signal with the block that makes it."""
    from_it = f"from: {block_title(model, signal.partition('.')[0])}"
    return row(f"signal/{signal}", model.signals[signal].title, beside or from_it)


def block_title(model: SetModel, block: str) -> str:
    """Return what a block is called; what stands in none is of the whole set."""
    return model.blocks[block].title if block in model.blocks else WHOLE_SET


def block_link(model: SetModel, block: str) -> Element:
    """Return the way to a block; what is of the whole set leads to the contents."""
    leaf = f"block/{block}" if block in model.blocks else ""
    return link(leaf, block_title(model, block))


@lru_cache(maxsize=8)
def checks_of(model: SetModel) -> dict[str, CheckText]:
    """Return all checks, those that read a frequency once and not once a channel."""
    return once(model.checks)


def chance(probability: float) -> str:
    """Word how often something is met.

    >>> chance(0.0123), chance(0.0)
    ('1 in 81 sets', 'in no set')
    """
    return one_in(probability) if probability > 0.0 else "in no set"


def state_words(state: str) -> str:
    """Return an id as words.

    >>> state_words("wild-on-some")
    'wild on some'
    """
    return state.replace("-", " ")


def facts(pairs: Iterable[tuple[str, str]]) -> Element:
    """Return labels with their texts; empty texts are left out."""
    terms = [(h("dt", None, name), h("dd", None, words)) for name, words in pairs if words]
    return h("dl", {"class": "how"}, [part for pair in terms for part in pair])
