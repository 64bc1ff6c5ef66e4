"""A block of the drawing opened: what may be wrong in it, what can be checked, what it passes on.

Causes come with the bench; checks and signals follow after the repaint.
"""

from xml.etree.ElementTree import Element

from engine.diagnosis.advising.in_block import Believed, checks_in, signals_in
from engine.diagnosis.advising.steps import AdvisedCheck, RankedCause
from engine.diagnosis.model import BlockText
from web.views.frame import bar
from web.views.markup import button, h, shows
from web.views.state import Bench, Shown
from web.views.words import KINDS, minutes, percent, worth

LIKELIEST, CHECKS, SIGNALS = 6, 8, 10  # shown of an opened block
NEARLY_NEVER = 0.005  # a wrong state this unlikely is not named


def opened_block(bench: Bench, shown: Shown) -> Element:
    """Return the opened block, or the hint to open one."""
    block = bench.model.blocks.get(shown.block or "")
    if block is None:
        return h("p", {"class": "hint"}, "Press a block to see what may be wrong in it.")
    inside = [each for each in bench.step.causes if each.block == block.id][:LIKELIEST]
    return h(
        "div",
        {"class": "opened", "id": "opened-block"},
        h("h3", {"id": "opened-block-title", "tabindex": "-1"}, block.title),
        h("p", None, block.about),
        h(
            "div",
            {"class": "block-parts"},
            h(
                "section",
                None,
                h("h4", None, "What may be wrong in it"),
                h("ol", {"class": "rows"}, [_cause(each) for each in inside]),
            ),
            h("div", {"data-later": "block", "id": "block-more", "class": "block-more"}),
        ),
        button("Close", shows(block=None)),
    )


def _cause(each: RankedCause) -> Element:
    return h(
        "li",
        {"data-block-cause": each.id},
        button(each.title, {"class": "pick", **shows("opened-cause", cause=each.id)}),
        h("small", None, f"{percent(each.probability)} · {KINDS[each.kind]}"),
        bar(each.probability),
    )


def block_more(bench: Bench, block: BlockText) -> list[Element]:
    """Return the checks that can be made at a block and the signals it passes on."""
    checks = checks_in(bench.model, bench.case, block.id)
    signals = signals_in(bench.model, bench.case, block.id)
    return [
        _checks(bench, checks),
        h(
            "section",
            None,
            h("h4", None, "What it passes on"),
            h("p", {"class": "hint"}, "The bar is the chance that it is not right."),
            h("ul", {"class": "rows signals"}, [_signal(bench, s) for s in signals[:SIGNALS]]),
            _rest(len(signals) - SIGNALS, "other signals are likelier right"),
        ),
    ]


def _checks(bench: Bench, checks: tuple[AdvisedCheck, ...]) -> Element:
    rows = [_check(bench, each) for each in checks[:CHECKS]]
    none = "No check is left here with what you have and with what makes sense now."
    return h(
        "section",
        None,
        h("h4", None, "What you can check here"),
        h("ul", {"class": "rows"}, rows) if rows else h("p", None, none),
        _rest(len(checks) - CHECKS, "more checks tell less"),
    )


def _check(bench: Bench, each: AdvisedCheck) -> Element:
    where = bench.model.checks[each.id].where
    return h(
        "li",
        {"data-block-check": each.id},
        button(each.title, {"class": "pick", **shows("check-title", check=each.id)}),
        h("small", None, f"{worth(each.gain_bits)} · {minutes(each.minutes)}"),
        h("small", {"class": "point"}, f"Point: {where}") if where else None,
    )


def _signal(bench: Bench, each: Believed) -> Element:
    """Return one signal: right with what chance, and the wrong states worth naming."""
    wrong = sorted(each.states[1:], key=lambda state: -state[1])
    named = [f"{state.replace('-', ' ')} {percent(p)}" for state, p in wrong if p >= NEARLY_NEVER]
    first = each.states[0][0].replace("-", " ")
    return h(
        "li",
        {"data-signal": each.signal},
        h("span", None, bench.model.signals[each.signal].title),
        h("small", None, " · ".join([f"{first} {percent(each.right)}", *named])),
        bar(1.0 - each.right),
    )


def _rest(count: int, words: str) -> Element | None:
    return h("p", {"class": "hint"}, f"{count} {words}.") if count > 0 else None
