"""What the checker says of an author's files, and what can be done when it says nothing."""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.errors import Problem
from web.views.markup import button, h


def problem_list(problems: Sequence[Problem]) -> Element:
    """Return every problem; pressing its place goes to the line."""
    number = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
    items = [
        h(
            "li",
            {"class": "problem", "data-problem": str(each)},
            button(
                f"{each.file}:{each.line}",
                {
                    "class": "pick",
                    "data-act": "own",
                    "data-do": "line",
                    "data-place": each.file,
                    "data-line": each.line,
                },
            ),
            h("b", None, each.path),
            h("span", None, f"found {each.found}, expected {each.expected}"),
            h("small", None, each.remedy),
        )
        for each in problems
    ]
    return h("div", None, h("p", {"class": "sentence"}, number), h("ol", {"class": "told"}, items))


def all_right(families: Sequence[tuple[str, str, bool]]) -> Element:
    """Return what can be done with right files: `families` are id, title, whether they are in it.

    Those that the files take part in come first.
    """
    touched = [each for each in families if each[2]]
    others = [each for each in families if not each[2]]
    return h(
        "div",
        None,
        h("p", {"class": "sentence"}, "All right. Look for a fault with it in:"),
        h("p", {"class": "row"}, [_diagnose(*each[:2]) for each in touched])
        if touched
        else _none(),
        h(
            "details",
            {"id": "own-others"},
            h("summary", None, "Sets that your files have no part in"),
            h("p", {"class": "row"}, [_diagnose(*each[:2]) for each in others]),
        )
        if others
        else None,
    )


def _none() -> Element:
    words = (
        "No set has a part of yours yet. A family lists its blocks and wires them: take one from "
        "the list below, add your block under blocks and wiring, and check again."
    )
    return h("p", None, words)


def _diagnose(family: str, title: str) -> Element:
    return button(
        title,
        {
            "class": "main",
            "id": f"own-diagnose-{family}",
            "data-act": "own",
            "data-do": "diagnose",
            "data-family": family,
        },
    )


def shelf(files: Sequence[str]) -> Element:
    """Return the shipped files to take a copy of."""
    options = [h("option", {"value": file}, file) for file in files]
    return h(
        "p",
        {"class": "row"},
        h("label", {"for": "own-shipped"}, "File"),
        h("select", {"id": "own-shipped"}, options),
        button("Take a copy", {"id": "own-take", "data-act": "own", "data-do": "take"}),
    )
