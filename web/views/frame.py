"""What all screens share: the row of steps, the heading, the box of cautions."""

from collections.abc import Iterable
from xml.etree.ElementTree import Element

from engine.diagnosis.model import CautionText, SetModel
from web.views.markup import Input, button, h, packed, shows

SCREENS = {
    "home": "The set",
    "symptoms": "What is wrong",
    "kit": "What you have",
    "bench": "Find it",
    "set-up": "Set it up",
    "prove": "Prove it",
    "record": "Record",
}


def steps(current: str) -> Element:
    """Return the row of screens; the one on show is marked."""
    items = [
        h(
            "li",
            None,
            button(
                words,
                {
                    "id": f"to-{screen}",
                    "aria-current": "step" if screen == current else None,
                    **shows("title", screen=screen, check=None),
                },
            ),
        )
        for screen, words in SCREENS.items()
    ]
    return h("nav", {"class": "steps", "aria-label": "Screens"}, h("ol", None, items))


def heading(words: str) -> Element:
    """Return the heading that focus moves to when the screen changes."""
    return h("h1", {"id": "title", "tabindex": "-1"}, words)


def cautions(
    model: SetModel,
    ids: tuple[str, ...],
    label: str = "Before you start",
    level: str = "h3",
    read: frozenset[str] = frozenset(),
) -> Element | None:
    """Return the cautions under a heading of `level`; None when there are none.

    Those `read` before are named in one line, which unfolds.
    """
    known = [each for each in ids if each in model.cautions]
    fresh = [model.cautions[each] for each in known if each not in read]
    again = [model.cautions[each] for each in known if each in read]
    if not known:
        return None
    box = caution_box(fresh, label, level)
    box.extend([_as_before(again)] if again else [])
    return box


def caution_box(texts: Iterable[CautionText], label: str, level: str = "h3") -> Element:
    """Return cautions in full, under a heading of `level`."""
    rows = [_caution(each) for each in texts]
    return h(
        "div",
        {"class": "cautions", "role": "note"},
        h(level, None, label),
        h("ul", None, rows) if rows else None,
    )


def _as_before(texts: list[CautionText]) -> Element:
    titles = " · ".join(each.title for each in texts)
    rows = h("ul", None, [_caution(each) for each in texts])
    return h("details", None, h("summary", None, "As before: ", h("b", None, titles)), rows)


def _caution(text: CautionText) -> Element:
    return h("li", None, h("b", None, f"{text.title}. "), text.text)


def file_picker(name: str, words: str, kinds: str, many: bool = False) -> Element:
    """Return a label that looks like a button over a picker of files; `kinds` as in `accept`.

    The picker itself cannot be seen, yet has the focus and takes what is dropped on it.
    """
    picker = {"type": "file", "id": name, "accept": kinds, "multiple": many}
    return h("span", {"class": "picker"}, h("input", picker), h("label", {"for": name}, words))


def bar(probability: float) -> Element:
    """Return a bar as long as the probability; the number stands beside it as text."""
    width = f"{100 * probability:.2f}"
    return h(
        "svg",
        {
            "class": "bar",
            "viewBox": "0 0 100 8",
            "preserveAspectRatio": "none",
            "aria-hidden": "true",
        },
        h("rect", {"class": "bar-bed", "width": "100", "height": "8"}),
        h("rect", {"class": "bar-fill", "width": width, "height": "8"}),
    )


def tick(name: str, is_on: bool, words: tuple[str, str], inputs: tuple[Input, Input]) -> Element:
    """Return a box to tick; `words` are label and hint, `inputs` what ticking and unticking do."""
    on, off = inputs
    box = {
        "type": "checkbox",
        "id": name,
        "checked": is_on,
        "data-on": packed(on),
        "data-off": packed(off),
    }
    label, hint = words
    return h(
        "div",
        {"class": "tick"},
        h("input", box),
        h("label", {"for": name}, h("b", None, label), h("small", None, hint)),
    )


def for_a_bench(words: str) -> Element:
    """Return a note that a screen is not for this kit, and the way back to finding the cause."""
    back = button("Back to finding the cause", shows("title", screen="bench", check=None))
    return h("section", {"class": "card", "id": "for-a-bench"}, h("p", None, words), back)


def onward(screen: str) -> Element:
    """Return the button to the next screen."""
    return h(
        "p",
        {"class": "onward"},
        button("Go on", {"class": "main", **shows("title", screen=screen)}),
    )
