"""The order in which a set is adjusted: whatever another one hangs on comes before it.

References:
    Kahn, Topological sorting of large networks, CACM 5 (1962), with a heap for a stable order
    (from memory).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from heapq import heappop, heappush

from engine.diagnosis.settings import SettingUpText
from engine.knowledge.together import Names, together
from engine.setting_up.visits import Shares, least_visits

Place = tuple[int, int]  # of the chapter, and of the adjustment in the knowledge


@dataclass(frozen=True, slots=True)
class Group:
    """An adjustment, or several that move each other and are set in turn.

    `names` are in the order of their first visits. `visits` is the shortest row after which all
    hold; empty where they are gone round until they do.
    """

    names: Names
    visits: Names


def set_up_order(text: SettingUpText) -> tuple[Group, ...]:
    """Return the adjustments of a set in an order in which each can be set once for good.

    Of those that may come next, chapter and then place in the knowledge decide, so the same
    knowledge always gives the same order. Checked knowledge has no circles.
    """
    names, shares = tuple(text.settings), shares_of(text)
    groups = [_group(text, each, shares) for each in together(names, shares)]
    home = {name: number for number, group in enumerate(groups) for name in group.names}
    before = {
        number: {home[one] for name in group.names for one in text.settings[name].first} - {number}
        for number, group in enumerate(groups)
    }
    chapters = list(text.chapters)
    places = [
        min((chapters.index(text.settings[n].chapter), names.index(n)) for n in group.names)
        for group in groups
    ]
    return tuple(groups[number] for number in topological(before, places))


def topological(before: Mapping[int, Iterable[int]], places: list[Place]) -> list[int]:
    """Return numbers so that all `before` one come earlier; the least of `places` goes first.

    >>> topological({0: [2], 1: [], 2: []}, [(0, 0), (1, 0), (1, 1)])
    [1, 2, 0]
    """
    waiting = {number: set(others) for number, others in before.items()}
    ready: list[tuple[Place, int]] = []
    for number, others in waiting.items():
        if not others:
            heappush(ready, (places[number], number))
    order: list[int] = []
    while ready:
        _, number = heappop(ready)
        order.append(number)
        for other, others in waiting.items():
            if number in others:
                others.remove(number)
                if not others:
                    heappush(ready, (places[other], other))
    assert len(order) == len(waiting), "checked knowledge has no circles"
    return order


def shares_of(text: SettingUpText) -> Shares:
    """Return how much of a correction of one adjustment shows in another, by both names."""
    return {(one, other): share for one, other, share in text.pairs}


def _group(text: SettingUpText, names: Names, shares: Shares) -> Group:
    if len(names) == 1:
        return Group(names, names)
    visits = least_visits(names, shares, text.usual_error)
    return Group(tuple(dict.fromkeys((*visits, *names))), visits)
