"""A walk of two minutes through the invented case: a short text above the real screen."""

from xml.etree.ElementTree import Element

from web.demo import DEMO
from web.views.bench import bench_screen
from web.views.kit import kit
from web.views.markup import button, h
from web.views.record.sheet import record_screen
from web.views.state import Bench, Shown
from web.views.symptoms import symptoms

SETTING = 3  # inputs that are no findings: the note, the kit, the lid
# screen, inputs behind it, title, class of the part talked of, words
STEPS = (
    (
        "symptoms",
        SETTING,
        "What is wrong",
        "",
        "Set 7 of the shepherds' cooperative hears well, but nobody hears it. Everything here is "
        "invented. You begin by ticking what you noticed yourself; no tool is needed.",
    ),
    (
        "kit",
        SETTING,
        "What you have",
        "",
        "Here you say which instruments are at hand and whether the lid may come off. Say nothing, "
        "and only checks with eyes, ears and a closed lid are asked.",
    ),
    (
        "bench",
        SETTING + 1,
        "The bench",
        "verdict",
        "One finding is in: other sets hear nothing at all. At the top it says where you stand. "
        "Below comes the check that tells most now, with its cautions first.",
    ),
    (
        "bench",
        SETTING + 3,
        "The list of causes",
        "causes",
        "Two findings more. Bars grow and shrink with each; what has moved is written beside them. "
        "A dotted word says what it means when it is pressed.",
    ),
    (
        "bench",
        SETTING + 5,
        "Nearly there",
        "check",
        "Two meter readings later the list is short. If you cannot do a check, say so, and another "
        "is found. Any answer can be changed later.",
    ),
    (
        "record",
        SETTING + 5,
        "The record",
        "",
        "All of it in plain words: to print, to copy, to take along to a club or a repairer. It "
        "never left the device.",
    ),
)


def walk_log(step: int) -> dict[str, object]:
    """Return the log of the invented case at a step, from 0; past either end, the nearest."""
    _, inputs, _, _, _ = STEPS[max(0, min(step, len(STEPS) - 1))]
    return {**DEMO, "inputs": DEMO["inputs"][:inputs]}


def walk(bench: Bench, shown: Shown) -> list[Element]:
    """Return the text of the step, and the screen of the case, which cannot be pressed."""
    number = max(0, min(shown.walk, len(STEPS) - 1))
    name, _, title, part, words = STEPS[number]
    screens = {
        "symptoms": lambda: symptoms(bench, Shown(screen="symptoms")),
        "kit": lambda: kit(bench),
        "bench": lambda: bench_screen(bench, Shown(screen="bench")),
        "record": lambda: record_screen(bench),
    }
    return [
        _guide(number, title, words),
        h(
            "div",
            {"class": "walked", "inert": True, "aria-hidden": "true"},
            _still(screens[name](), part),
        ),
    ]


def _guide(number: int, title: str, words: str) -> Element:
    is_last = number == len(STEPS) - 1
    return h(
        "section",
        {"class": "guide", "aria-labelledby": "walk-title"},
        h("p", {"class": "over"}, f"A walk of two minutes · step {number + 1} of {len(STEPS)}"),
        h("h1", {"id": "walk-title", "tabindex": "-1"}, title),
        h("p", None, words),
        h(
            "p",
            {"class": "row"},
            _go("Back", "walk-back", number - 1) if number else None,
            None if is_last else _go("Next", "walk-next", number + 1),
            button("Leave", {"id": "walk-leave", "data-act": "leave-walk"}),
        ),
    )


def _go(words: str, name: str, step: int) -> Element:
    return button(words, {"id": name, "data-act": "walk", "data-step": step})


def _still(parts: list[Element], pointed: str) -> list[Element]:
    """Take off what fills itself or has a name of the page; mark the part that is talked of."""
    for part in parts:
        for element in part.iter():
            for name in ("id", "data-later", "data-words", "data-input", "data-view", "data-act"):
                element.attrib.pop(name, None)
            classes = (element.get("class") or "").split()
            if pointed in classes[:1]:
                element.set("class", " ".join((*classes, "pointed")))
    return parts
