"""Which view shows which screen, and which parts come a moment later."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.explaining import explanations, why
from engine.diagnosis.advising.foresight import what_if
from engine.diagnosis.repairing.again import mended
from web.views.bench import bench_screen
from web.views.block_panel import block_more
from web.views.costs import costs_filled, stage_of
from web.views.decides import decides
from web.views.diagram import block_list, diagram
from web.views.effects import effects_table, tells
from web.views.ending import ALL_THE_SAME, ending
from web.views.frequencies import frequencies_filled, told_by_frequencies
from web.views.kit import kit
from web.views.last_kit import last_kit
from web.views.markup import h, html
from web.views.mending import mended_told
from web.views.picture import picture
from web.views.reasons import joint
from web.views.reasons import why as why_view
from web.views.record.sheet import paper, record_screen
from web.views.several import several_screen
from web.views.state import Bench, Shown
from web.views.supposed import supposed_screen
from web.views.symptoms import symptoms
from web.views.timeline import timeline
from web.views.walk import walk

STORIES = 4


def screen(bench: Bench, shown: Shown) -> list[Element]:
    """Return the elements of <main> for a case."""
    match shown.screen:
        case "symptoms":
            return symptoms(bench, shown)
        case "kit":
            return kit(bench)
        case "record":
            return record_screen(bench)
        case "decides":
            return decides(bench, shown)
        case "walk":
            return walk(bench, shown)
        case "several":
            return several_screen(bench, shown)
        case "supposed" if bench.model.checks.get(shown.supposed_check):
            return supposed_screen(bench, shown)
    return bench_screen(bench, shown)


def later(bench: Bench, shown: Shown, part: str, version: str) -> dict[str, str]:
    """Return the HTML of one group of parts that are filled after the repaint."""
    match part:
        case "check" if shown.screen == "bench":
            return _about_the_check(bench, shown)
        case "map" if shown.screen == "bench" and not bench.step.kinds:
            return _map(bench, shown)
        case "timeline" if shown.screen == "bench":
            return {"timeline": html(timeline(bench))}
        case "kit" if shown.screen in ("kit", "bench"):
            return {"last-kit": html(last_kit(bench, shown))}
        case "record":
            return _papers(bench, shown, version)
        case "proof":
            return {"proof": ""}  # a part of its own fills it once anything was read
        case "costs" if shown.screen == "bench" and shown.costs == stage_of(bench):
            return {"costs": html(costs_filled(bench))}
    return {}


def _about_the_check(bench: Bench, shown: Shown) -> dict[str, str]:
    """Return what each outcome would do, and the reasons for the opened cause."""
    ended = ending(bench)
    parts = {"ending": html(ended), "all-the-same": ALL_THE_SAME if ended is not None else ""}
    if bench.case.past:
        rows = mended(bench.model, bench.case)
        parts["mended"] = html(*mended_told(bench, rows))
    check = bench.check_at_hand(shown)
    if check is not None:
        effects = what_if(bench.model, bench.case, check.id)
        told = tells(bench, check, effects)
        parts["tells"] = html(told) if told is not None else ""
        parts["picture"] = html(picture(check))
        parts["effects"] = html(effects_table(bench, check, effects))
    found = told_by_frequencies(bench)
    if found is not None:
        parts["frequencies"] = html(frequencies_filled(bench, found))
    if shown.cause in bench.model.causes:
        parts["why"] = html(why_view(bench, why(bench.model, bench.case, str(shown.cause))))
    return parts


def _map(bench: Bench, shown: Shown) -> dict[str, str]:
    block = bench.model.blocks.get(shown.block or "")
    more = {"block": html(*block_more(bench, block))} if block else {}
    drawing = h(
        "div",
        {
            "class": "drawing-box",
            "tabindex": "0",
            "role": "region",
            "aria-label": "Drawing of the set",
        },
        diagram(bench.model, bench.step.blocks, shown.block),
    )
    return {**more, "map": html(drawing, block_list(bench.model, bench.step.blocks, shown.block))}


def _papers(bench: Bench, shown: Shown, version: str) -> dict[str, str]:
    stories = explanations(bench.model, bench.case, STORIES)
    whole = html(paper(bench, stories, version, shown))
    return {"joint": html(joint(bench, stories)), "paper": whole, "record": whole}
