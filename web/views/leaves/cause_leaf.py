"""A cause: how often, what it does to the set, what to do about it, what shows it."""

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from engine.diagnosis.advising.consequences import Risen, is_of_a_block, put_out, risen
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import CauseText, SetModel
from web.views.frame import cautions
from web.views.leaves.pieces import (
    block_title,
    chance,
    check_row,
    checks_of,
    row,
    rows,
    signal_row,
    state_words,
)
from web.views.markup import h
from web.views.words import KINDS, percent

MOST_SIGNALS = 12


def cause_leaf(model: SetModel, cause: CauseText) -> Iterator[Element | None]:
    """Yield what is known of a cause."""
    block = model.blocks[cause.block]
    yield h("p", {"class": "lead"}, cause.about) if cause.about else None
    yield h("p", None, f"{KINDS[cause.kind].capitalize()}: {chance(cause.prior)}.")
    yield rows("Where", [row(f"block/{block.id}", block.title)])
    yield _ways(model, cause)
    yield h(
        "section",
        None,
        h("h2", None, "What to do"),
        cautions(model, cause.cautions, level="h2"),
        h("p", None, cause.act),
        h("p", {"class": "hint"}, "Only once it is proved that it is this."),
    )
    first = [model.checks[each] for each in cause.prove_first if each in model.checks]
    yield rows("To be checked before that", [check_row(each) for each in first])
    looking = [each for each in checks_of(model).values() if each.looks_at == cause.id]
    yield rows("What looks straight at it", [check_row(each) for each in looking])
    yield _put_out(model, cause)
    yield _noticed(model, cause)
    yield h("small", None, f"Source: {cause.source}")


def _ways(model: SetModel, cause: CauseText) -> Element | None:
    """Return the ways in which it can be there, when there are several."""
    if len(cause.ways) == 1:
        return None
    _, *chances = calibrated(model, ()).posterior(cause.id)
    items = [
        h("li", None, h("span", None, title), h("small", None, chance(p)))
        for title, p in zip(cause.ways.values(), chances, strict=True)
    ]
    return rows("As", items)


def _put_out(model: SetModel, cause: CauseText) -> Element | None:
    """Return what is put out of order, what is wrong in its own block first."""
    states: dict[str, list[tuple[str, str]]] = {}
    for number, title in enumerate(cause.ways.values(), start=1):
        for name, state in put_out(model, cause.id, number):
            states.setdefault(name, []).append((title, state_words(state)))
    near = sorted(states, key=lambda name: name.partition(".")[0] != cause.block)
    items = [
        signal_row(model, name, f"{_by_way(cause, states[name])} · {_maker(model, name)}")
        for name in near[:MOST_SIGNALS]
    ]
    left = len(near) - len(items)
    return rows("What it puts out of order", items, f"And {left} more farther on." if left else "")


def _by_way(cause: CauseText, told: list[tuple[str, str]]) -> str:
    """Word what comes of each way; once when all bring the same.

    Ways that bring nothing here are left out.
    """
    words = {state for _, state in told}
    if len(words) == 1 and len(told) == len(cause.ways):
        return words.pop()
    return ", ".join(f"{state} ({title.lower()})" for title, state in told)


def _maker(model: SetModel, signal: str) -> str:
    return block_title(model, signal.partition(".")[0])


def _noticed(model: SetModel, cause: CauseText) -> Element | None:
    """Return the symptoms that then show, with their chances by way and without it."""
    steady = [s for s in model.symptoms if is_of_a_block(model, model.checks[s].looks_at)]
    found: dict[tuple[str, str], list[tuple[str, Risen]]] = {}
    for number, title in enumerate(cause.ways.values(), start=1):
        for one in risen(model, cause.id, number, steady):
            found.setdefault((one.symptom, one.outcome), []).append((title, one))
    items = [_symptom(model, cause, told) for told in found.values()]
    return rows("What is then noticed", items, "With all else left to chance.")


def _symptom(model: SetModel, cause: CauseText, told: list[tuple[str, Risen]]) -> Element:
    first = told[0][1]
    check = model.checks[first.symptom]
    answer = check.outcomes.get(first.outcome, first.outcome)
    with_it = _by_way(cause, [(title, percent(one.after)) for title, one in told])
    words = f"{check.asks} {answer}: {with_it}, else {percent(first.before)}"
    return row(f"check/{check.id}", check.title, words)
