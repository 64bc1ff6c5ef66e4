"""Several readings in one go: what each line may be about, for confirmation; nothing is lost."""

from xml.etree.ElementTree import Element

from engine.diagnosis.messages.several import Fit, Line, read_lines
from web.views.frame import heading, steps
from web.views.markup import button, h, packed, shows
from web.views.state import Bench, Shown, said

EXAMPLE = "main rail 13.4 V\ntx power 3.6 W"


def several_box(shown: Shown) -> Element:
    """Return the box to write in; what was not entered the last time stands in it still."""
    left = shown.lines.strip()
    words = "Several readings in one go"
    return h(
        "details",
        {"class": "several", "id": "several", "open": bool(left)},
        h("summary", None, f"{words} (lines left over below)" if left else words),
        _form(shown, "Match them to checks"),
    )


def _form(shown: Shown, words: str) -> Element:
    field = {
        "id": "lines",
        "name": "lines",
        "rows": "5",
        "aria-describedby": "lines-hint",
        "placeholder": EXAMPLE,
        "autocomplete": "off",
        "spellcheck": "false",
    }
    hint = "One reading a line: a few words for the place, the number, its unit."
    return h(
        "form",
        shows("title", screen="several"),
        h("label", {"for": "lines"}, "What you have measured"),
        h("textarea", field, shown.lines),
        h("p", {"class": "hint", "id": "lines-hint"}, hint),
        h("button", {"type": "submit"}, words),
    )


def several_screen(bench: Bench, shown: Shown) -> list[Element]:
    """Return the proposals for each line, those that fit nothing, and the box again."""
    lines = read_lines(bench.model, shown.lines)
    usable = [each for each in lines if each.is_usable]
    enter = {"class": "main", "id": "enter-several", "data-act": "enter-several"}
    back = button("Back", shows("check-title", screen="bench"))
    chosen = _first_choices(usable)
    return [
        steps("bench"),
        heading("Are these right?"),
        h("p", {"class": "lead"}, "Nothing is entered until you say so."),
        h(
            "div",
            {"class": "proposals"},
            [_proposal(bench, number, line, chosen[number]) for number, line in enumerate(usable)],
        ),
        *_left_out([each for each in lines if not each.is_usable]),
        h("p", {"class": "row"}, button("Enter them all", enter) if usable else None, back),
        h("section", {"class": "several"}, _form(shown, "Match again")),
    ]


def _first_choices(lines: list[Line]) -> list[Fit | None]:
    """Return for each line its best check that no earlier line has, None when there is none."""
    taken: set[str] = set()
    chosen: list[Fit | None] = []
    for line in lines:
        best = next((fit for fit in line.fits if fit.check not in taken), None)
        chosen.append(best)
        taken |= {best.check} if best else set()
    return chosen


def _proposal(bench: Bench, number: int, line: Line, best: Fit | None) -> Element:
    """Return a line with the choice of its check; the last choice leaves it out."""
    name = f"choice-{number}"
    options = [_option(bench, each, each is best) for each in line.fits]
    none = h("option", {"value": "", "selected": best is None}, "None of these: leave it out")
    twice = "Another line is about the same check. " if best is not line.fits[0] else ""
    return h(
        "div",
        {"class": "proposal", "data-line": line.text},
        h("label", {"for": name}, "“", h("b", None, line.text), "” is"),
        h("select", {"id": name, "autocomplete": "off"}, options, none),
        h("small", None, f"{twice}{_instead(bench, line)}")
        if twice or _instead(bench, line)
        else None,
    )


def _option(bench: Bench, fit: Fit, is_best: bool) -> Element:
    title = bench.model.checks[fit.check].title
    value = packed({"check": fit.check, "said": fit.said})
    return h("option", {"value": value, "selected": is_best}, f"{title}: {fit.said}")


def _instead(bench: Bench, line: Line) -> str:
    """Word which finding would give way, empty where there is none."""
    found = [bench.finding(fit.check) for fit in line.fits]
    told = [
        f"{bench.model.checks[each.check].title} was {said(bench.model, each)} before."
        for each in found
        if each
    ]
    return " ".join(told)


def _left_out(lines: list[Line]) -> list[Element]:
    """Return the lines no check would take, each with the reason; nothing when there are none."""
    if not lines:
        return []
    rows = [h("li", None, h("b", None, each.text), h("small", None, _why(each))) for each in lines]
    words = h("p", None, "These cannot be entered. They stay in the box below.")
    return [h("div", {"class": "wrong", "id": "left-out"}, words, h("ul", {"class": "rows"}, rows))]


def _why(line: Line) -> str:
    if not line.fits:
        return "Fits no check of this set. Other words for the place may help."
    return f"{line.fits[0].problem[:1].upper()}{line.fits[0].problem[1:]}"
