"""A check: how it is made, what is right, how each state shows; with a symptom its fault tree."""

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Case
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.readings import Spread
from web.views.frame import cautions
from web.views.leaves.pieces import CHECK_KINDS, block_link, facts, row, rows, state_words
from web.views.leaves.tree_leaf import tree
from web.views.markup import h
from web.views.words import LIDS, MODES, listed, minutes, percent

LEAST = 0.005  # an answer less likely than this is not worth a word


def check_leaf(
    model: SetModel, check: CheckText, case: Case | None = None, unfolded: str = ""
) -> Iterator[Element | None]:
    """Yield what is known of a check."""
    words = [CHECK_KINDS[check.kind], f"about {minutes(check.minutes)}"]
    words += [MODES[check.mode].lower(), LIDS[check.lid]]
    yield h("p", {"class": "worth"}, " · ".join(words).capitalize())
    yield cautions(model, check.cautions, level="h2")
    yield h("p", {"class": "asks"}, check.asks)
    yield facts(_how(model, check))
    yield rows("Where", [h("li", None, block_link(model, check.block))])
    yield rows("What it looks at", [_looked_at(model, check)])
    yield rows("How that shows", _shows(model, check))
    yield rows("Makes sense only while", [*_presumed(model, check.presumes)])
    yield rows("Is safe only while", [*_presumed(model, check.safe_while)])
    yield tree(model, check, case, unfolded) if check.kind == "symptom" else None
    yield h("small", None, f"Source: {check.source}")


def _how(model: SetModel, check: CheckText) -> tuple[tuple[str, str], ...]:
    limit = model.limits.get(check.limit or "")
    held = f"{limit.direction.replace('-', ' ')} {limit.value:g} {limit.unit}" if limit else ""
    span = f"{check.span[0]:g} to {check.span[1]:g} {check.unit}" if check.span else ""
    return (
        ("With", listed([model.instruments[each].title for each in check.needs])),
        ("Where", check.where),
        ("How", check.how),
        ("Into", check.load),
        ("Right", check.right),
        ("You may see", check.may_see),
        ("Never done this?", check.plain),
        ("Can be typed", span),
        ("Limit", f"{held} ({limit.rules}, {limit.source})" if limit else ""),
    )


def _looked_at(model: SetModel, check: CheckText) -> Element:
    name = check.looks_at
    if name in model.causes:
        return row(f"cause/{name}", model.causes[name].title, "a cause")
    if name in model.signals:
        return row(f"signal/{name}", model.signals[name].title, "a signal")
    words = "It can be read on any channel; several such readings are weighed together."
    return h("li", None, h("span", None, "All oscillators at once"), h("small", None, words))


def _shows(model: SetModel, check: CheckText) -> list[Element]:
    """Return what comes out in each state of what is looked at."""
    name = check.looks_at
    if check.meter is not None and name in model.signals | model.causes:
        told = [_reads(spread, str(check.unit)) for spread in check.meter.spreads]
    else:
        told = [_answers(check, chances) for chances in check.channel.rows]
    states = _states(model, name)
    return [
        h("li", None, h("span", None, state), h("small", None, words))
        for state, words in zip(states, told, strict=False)
    ]


def _states(model: SetModel, name: str) -> list[str]:
    if name in model.causes:
        return ["not there", *model.causes[name].ways.values()]
    return [state_words(state) for state in model.signals[name].states] if _has(model, name) else []


def _has(model: SetModel, name: str) -> bool:
    return name in model.signals


def _reads(spread: Spread, unit: str) -> str:
    """Word a distribution; its blur holds the instrument's error."""
    if spread.low == spread.high:
        return f"about {spread.low:g} {unit}, give or take {spread.sd:.2g}"
    return f"{spread.low:g} to {spread.high:g} {unit}"


def _answers(check: CheckText, chances: tuple[float, ...]) -> str:
    told = [
        f"{title} {percent(p)}"
        for title, p in zip(check.outcomes.values(), chances, strict=False)
        if p >= LEAST
    ]
    return ", ".join(told)


def _presumed(
    model: SetModel, presumed: tuple[tuple[str, tuple[str, ...]], ...]
) -> Iterator[Element]:
    for name, states in presumed:
        words = f"is {' or '.join(map(state_words, states))}"
        if _has(model, name):
            yield row(f"signal/{name}", model.signals[name].title, words)
        elif name in model.causes:
            yield row(f"cause/{name}", model.causes[name].title, words)
