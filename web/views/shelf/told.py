"""What came of opening a file with cases: what was taken, and every problem with it."""

from xml.etree.ElementTree import Element

from engine.errors import Problem
from web.shelf_files import FileRead
from web.views.markup import h


def told_of_file(name: str, read: FileRead) -> Element:
    """Return what was taken from a file and what was not, and why."""
    return h(
        "div",
        {"class": "told", "id": "told", "role": "note"},
        h("p", None, h("b", None, name), f": {_counted(read)}"),
        h("ul", None, [_problem(each) for each in read.problems]) if read.problems else None,
    )


def _counted(read: FileRead) -> str:
    """Word how many cases were taken, as what."""
    words = [f"{_cases(len(read.take))} taken."]
    if read.second:
        words.append(
            f"{_cases(read.second)} of these kept here in another state: taken as a second case "
            "beside it."
        )
    if read.same:
        words.append(f"{_cases(read.same)} here already, just so.")
    if read.problems:
        words.append("What is listed below was not taken; nothing kept here was touched.")
    return " ".join(words)


def _cases(number: int) -> str:
    return "1 case" if number == 1 else f"{number} cases"


def _problem(each: Problem) -> Element:
    where = f"Line {each.line}, {each.path}" if each.path == "text" else each.path
    return h(
        "li", None, h("b", None, where), f": found {each.found}, expected {each.expected}. ",
        each.remedy,
    )  # fmt: skip
