"""The fault tree of a symptom: what brings it about alone, and what only two together do."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from math import fsum, prod
from xml.etree.ElementTree import Element

from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.case import Case, Finding
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.repairing.present import Present, present
from web.views.leaves.pieces import chance, link
from web.views.leaves.tree_picture import Chances, tree_picture
from web.views.markup import h
from web.views.words import listed, percent

PAIRS = 12


@dataclass(frozen=True, slots=True)
class CutSet:
    """Causes, each in one way, that bring the symptom about; `chance` before any finding."""

    events: tuple[tuple[str, str], ...]
    chance: float


def tree(
    model: SetModel, check: CheckText, case: Case | None = None, unfolded: str = ""
) -> Element | None:
    """Return the fault tree drawn and as nested lists; nothing for a symptom without one.

    The drawing has the chances of the set as it is by `case`, the one on the bench.
    """
    found = cut_sets(model, check.id)
    alone = [each for each in found if len(each.events) == 1]
    pairs = [each for each in found if len(each.events) == 2]
    if not found:
        return None
    known = present(model, case) if case else Present(model, (), frozenset())
    is_told = bool(case and case.all_findings())
    now = chances_now(known.model, found, known.findings)
    beside = now if is_told else {}
    return h(
        "section",
        {"class": "tree", "id": "tree"},
        h("h2", None, "Fault tree"),
        h("p", {"class": "hint"}, NOW if is_told else BEFORE),
        tree_picture(model, check.title, [each.events for each in found], now, unfolded),
        h("h3", None, "All of it as a list"),
        h("p", {"class": "hint"}, MEANING + (BESIDE if is_told else "")),
        h(
            "ul",
            None,
            h(
                "li",
                None,
                h("b", None, f"“{check.title}” comes about by any one of"),
                _by_block(model, alone, beside),
            ),
            _together(model, pairs, beside),
        ),
    )


NOW = "Drawn with the chances as your case stands, each cause by itself."
BEFORE = "Drawn with the chances of a set nothing is known of, each cause by itself."
MEANING = (
    "Each line alone, with all else in order, makes the answer yes likelier than not. Chances are "
    "those of a set nothing is known of."
)
BESIDE = " Beside each stands its chance now, as in the drawing."


def chances_now(
    model: SetModel, sets: Iterable[CutSet], findings: tuple[Finding, ...]
) -> dict[tuple[str, str], float]:
    """Return the chance of every cause in its way after `findings`, 0 to 1.

    Findings that cannot be true together are set aside, as in the step.
    """
    known = calibrated(model, possible_part(model, findings)[0])
    return {
        (cause, way): known.posterior(cause)[1 + list(model.causes[cause].ways).index(way)]
        for each in sets
        for cause, way in each.events
    }


def cut_sets(model: SetModel, symptom: str) -> list[CutSet]:
    """Return the minimal cut sets of a symptom, likeliest first.

    The chance of two together is the product of their own: what an event does to both is left out.
    """
    rest = calibrated(model, ())

    def of(cause: str, way: str) -> float:
        return rest.posterior(cause)[1 + list(model.causes[cause].ways).index(way)]

    sets = [
        CutSet(events, prod(of(cause, way) for cause, way in events))
        for events in model.cut_sets.get(symptom, ())
    ]
    return sorted(sets, key=lambda one: (-round(one.chance, 12), one.events))


def _by_block(model: SetModel, alone: Iterable[CutSet], now: Chances) -> Element:
    """Return single causes under their blocks, both likeliest first."""

    def block(one: CutSet) -> str:
        return model.causes[one.events[0][0]].block

    groups = {name: list(sets) for name, sets in groupby(sorted(alone, key=block), block)}
    ranked = sorted(groups.items(), key=lambda item: -_sum(item[1]))
    items = [_of_block(model, name, sets, now) for name, sets in ranked]
    return h("ul", None, items)


def _sum(sets: Iterable[CutSet]) -> float:
    return fsum(one.chance for one in sets)


def _of_block(model: SetModel, block: str, sets: list[CutSet], now: Chances) -> Element:
    """Return the causes of one block, folded away: a symptom may have a hundred."""
    ways = "1 way" if len(sets) == 1 else f"{len(sets)} ways"
    title = model.blocks[block].title
    inside = [h("li", None, link(f"block/{block}", f"About this block: {title}"))]
    inside += [_line(model, one, now) for one in sets]
    total = [min(fsum(now[event] for one in sets for event in one.events), 1.0)] if now else []
    summary = h(
        "summary", None, h("b", None, title), f" · {ways}, {chance(_sum(sets))}{_now(total)}"
    )
    return h("li", None, h("details", {"id": f"tree-{block}"}, summary, h("ul", None, inside)))


def _line(model: SetModel, one: CutSet, now: Chances) -> Element:
    links = [_event(model, *event) for event in one.events]
    told = [now[event] for event in one.events] if now else []
    joined = [part for each in links for part in (" and ", each)][1:]
    return h("li", None, joined, h("small", None, f" {chance(one.chance)}{_now(told)}"))


def _now(chances: list[float]) -> str:
    """Word chances after the findings, empty where there are none."""
    return f" · now {listed([percent(each) for each in chances])}" if chances else ""


def _event(model: SetModel, cause: str, way: str) -> Element:
    text = model.causes[cause]
    as_way = f" ({text.ways[way]})" if len(text.ways) > 1 else ""
    return link(f"cause/{cause}", f"{text.title}{as_way}")


def _together(model: SetModel, pairs: list[CutSet], now: Chances) -> Element | None:
    if not pairs:
        return None
    first = [_line(model, one, now) for one in pairs[:PAIRS]]
    left = pairs[PAIRS:]
    more = h(
        "details",
        {"id": "rarer-pairs"},
        h("summary", None, f"And {len(left)} rarer pairs"),
        h("ul", None, [_line(model, one, now) for one in left]),
    )
    words = h("b", None, "or by two of these together")
    return h("li", None, words, h("ul", None, first), more if left else None)
