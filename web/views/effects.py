"""What each outcome of a check would do, worked out after the check is on screen."""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.foresight import OutcomeEffect, tells_apart
from engine.diagnosis.kinds import KIND
from engine.diagnosis.model import CheckText
from web.views.frame import bar
from web.views.markup import button, h
from web.views.state import Bench
from web.views.supposed import opens, suppose_a_reading
from web.views.words import change, percent

LEADING = 3


def tells(bench: Bench, check: CheckText, effects: tuple[OutcomeEffect, ...]) -> Element | None:
    """Return which two causes a check separates best, or that it tells the kind of set."""
    if check.looks_at == KIND:
        return h("p", None, "Tells which kind of set this is.")
    pair = tells_apart(effects, bench.step.causes)
    if pair is None:
        return None
    first, second = (bench.model.causes[each].title for each in pair)
    return h("p", None, "Helps to tell ", h("b", None, first), " from ", h("b", None, second), ".")


def effects_table(bench: Bench, check: CheckText, effects: tuple[OutcomeEffect, ...]) -> Element:
    """Return every outcome with its probability and the causes that would lead then.

    Each opens the bench as it would be after it.
    """
    now = {each.id: each.probability for each in bench.step.causes}
    columns = [_column(bench, check, each, now) for each in effects]
    return h(
        "div",
        None,
        h("h3", None, "What each answer would do"),
        h("ul", {"class": "effects-list"}, columns),
        suppose_a_reading(check) if check.unit else None,
    )


def _column(
    bench: Bench, check: CheckText, effect: OutcomeEffect, now: dict[str, float]
) -> Element:
    rows = [
        h(
            "li",
            None,
            h("span", None, bench.model.causes[cause].title),
            h(
                "span",
                {"class": "figure"},
                f"{percent(p)} ",
                h("small", None, change(p - now[cause])),
            ),
        )
        for cause, p in effect.causes[:LEADING]
    ]
    return h(
        "li",
        None,
        h("p", None, h("b", None, effect.label), f" · {percent(effect.probability)} likely"),
        bar(effect.probability),
        h("ol", None, rows),
        button(
            "Suppose it", {"aria-label": f"Suppose: {effect.label}", **opens(check, effect.said)}
        ),
    )
