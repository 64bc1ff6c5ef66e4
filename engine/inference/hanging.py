"""Which clique hangs below which: any that holds its separator will do, so the smallest is taken.

A pass visits every entry of a clique once for each of its children, so children are better hung
below small cliques. A clique that holds the separator and is not below the moved one meets it in
no further variable, or the parent of before would hold that one too: the running intersection
stays.

References:
    Jensen & Jensen, Optimal junction trees, UAI 1994.
"""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Link:
    """The variables of a clique, those it shares with its parent, and the parent, -1 at a root."""

    scope: frozenset[str]
    separator: frozenset[str]
    parent: int


def hang_low(links: Sequence[Link], sizes: Sequence[int]) -> list[int]:
    """Return a parent for each clique, so that a pass has less to visit; roots stay roots.

    Args:
        links: a forest of cliques with the running intersection property.
        sizes: how many entries each clique has.
    """
    parents = [link.parent for link in links]
    holders: dict[str, list[int]] = {}
    for number in sorted(range(len(links)), key=lambda n: (sizes[n], n)):
        for variable in links[number].scope:
            holders.setdefault(variable, []).append(number)
    for number, link in enumerate(links):
        if link.parent < 0:
            continue
        rarest = min((holders[variable] for variable in sorted(link.separator)), key=len)
        for candidate in rarest:
            if sizes[candidate] >= sizes[parents[number]]:
                break
            fits = link.separator <= links[candidate].scope
            if fits and not _is_below(candidate, number, parents):
                parents[number] = candidate
                break
    return parents


def _is_below(clique: int, other: int, parents: Sequence[int]) -> bool:
    """Whether `clique` is `other` or hangs below it."""
    while clique not in (other, -1):
        clique = parents[clique]
    return clique == other
