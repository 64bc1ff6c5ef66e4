"""How the case went: the doubt left after each finding as a falling line, and the same in a list.

Filled after the repaint: each finding costs one pass, kept for the next time.
"""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.course import Stage, course
from web.views.markup import button, h, shows
from web.views.mending import DONE
from web.views.state import Bench, said
from web.views.words import percent

PITCH, HEIGHT = 74, 150
LEFT, RIGHT, TOP, BOTTOM = 46, 30, 24, 30
MARK, DIAMOND = 6, 10  # radius of a mark, and of that of a repair

REPAIRED = (
    "A diamond is a repair: from there on the bits count what is open about the set as it is, and "
    "about what had been wrong before."
)


def timeline_place() -> Element:
    """Return the section whose inside comes later."""
    return h(
        "section",
        {"class": "timeline", "aria-labelledby": "timeline-title"},
        h("h2", {"id": "timeline-title"}, "The doubt after each finding"),
        h("div", {"data-later": "timeline", "id": "timeline"}),
    )


def timeline(bench: Bench) -> Element:
    """Return the line and the list of what was known after each finding."""
    stages = course(bench.model, bench.case)
    if len(stages) == 1:
        hint = "Once something is found, a line here shows how much each finding cleared up."
        return h("p", {"class": "hint"}, hint)
    hint = (
        "How much is still open, in bits: one bit less halves the doubt. A finding nobody expected "
        "can raise it. Press a mark, or a line of the list, to change that answer."
    )
    if bench.case.past:
        hint = f"{hint} {REPAIRED}"
    box = {
        "class": "timeline-box",
        "tabindex": "0",
        "role": "region",
        "aria-label": "The doubt after each finding, drawn",
    }
    return h(
        "div",
        None,
        h("p", {"class": "hint"}, hint),
        h("div", box, _drawing(bench, stages)),
        h("ol", {"class": "rows", "start": "0"}, _rows(bench, stages)),
    )


def _drawing(bench: Bench, stages: tuple[Stage, ...]) -> Element:
    width = LEFT + RIGHT + PITCH * (len(stages) - 1)
    height = TOP + HEIGHT + BOTTOM
    most = max(each.entropy_bits for each in stages) or 1.0
    spots = [
        (LEFT + PITCH * number, TOP + round(HEIGHT * (1.0 - each.entropy_bits / most), 1))
        for number, each in enumerate(stages)
    ]
    floor = TOP + HEIGHT
    marks = zip(stages, spots, strict=True)
    return h(
        "svg",
        {
            "class": "falling",
            "viewBox": f"0 0 {width} {height}",
            "width": width,
            "height": height,
            "role": "img",
            "aria-label": "Doubt in bits after each finding; the list below says the same",
        },
        h("path", {"class": "floor", "d": f"M{LEFT - 20} {floor}H{width}"}),
        h("polyline", {"class": "fall", "points": " ".join(f"{x},{y}" for x, y in spots)}),
        [_mark(bench, number, each, spot) for number, (each, spot) in enumerate(marks)],
    )


def _mark(bench: Bench, number: int, stage: Stage, spot: tuple[int, float]) -> Element:
    """Return one stage: its bits above the mark, its number below the line."""
    x, y = spot
    opens = shows("check-title", check=stage.finding.check) if stage.finding else {}
    diamond = f"M{x} {y - DIAMOND}l{DIAMOND} {DIAMOND}-{DIAMOND} {DIAMOND}-{DIAMOND}-{DIAMOND}z"
    return h(
        "g",
        {"class": "stage repair" if stage.repair else "stage", **opens},
        h("title", None, f"{_found(bench, stage)}: {stage.entropy_bits:.1f} bits left"),
        h("rect", {"x": x - 24, "y": 0, "width": 48, "height": TOP + HEIGHT + BOTTOM}),
        h("path", {"d": diamond}) if stage.repair else h("circle", {"cx": x, "cy": y, "r": MARK}),
        h("text", {"x": x, "y": y - 11}, f"{stage.entropy_bits:.1f}"),
        h("text", {"x": x, "y": TOP + HEIGHT + 20, "class": "number"}, str(number)),
    )


def _rows(bench: Bench, stages: tuple[Stage, ...]) -> list[Element]:
    before = (None, *stages)
    return [_row(bench, *pair) for pair in zip(before, stages, strict=False)]


def _row(bench: Bench, earlier: Stage | None, stage: Stage) -> Element:
    fell = earlier.entropy_bits - stage.entropy_bits if earlier else 0.0
    moved = f", {abs(fell):.1f} {'less' if fell >= 0.0 else 'more'}" if earlier else ""
    leading = f"{bench.model.causes[stage.cause].title} {percent(stage.probability)}"
    words = _found(bench, stage)
    opens = shows("check-title", check=stage.finding.check) if stage.finding else None
    name = button(words, {"class": "pick", **opens}) if opens else h("span", None, words)
    told = f"{stage.entropy_bits:.1f} bits left{moved} · leading: {leading}"
    return h("li", None, name, h("small", None, told))


def _found(bench: Bench, stage: Stage) -> str:
    if stage.repair is not None:
        title = bench.model.causes[stage.repair.cause].title
        return f"Put right: {title} ({DONE[stage.repair.how]})"
    if stage.finding is None:
        return "Nothing found yet"
    return f"{bench.model.checks[stage.finding.check].lead_in} {said(bench.model, stage.finding)}"
