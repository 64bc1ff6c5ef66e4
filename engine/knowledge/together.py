"""Adjustments that move each other, and are therefore set in turn."""

from collections.abc import Iterable, Sequence

Names = tuple[str, ...]


def together(names: Sequence[str], pairs: Iterable[tuple[str, str]]) -> tuple[Names, ...]:
    """Return names in groups: those that pairs join, however indirectly, are in one.

    Groups stand where their first name does, and so do names within them.

    >>> together(["a", "b", "c", "d"], [("d", "a"), ("c", "x")])
    (('a', 'd'), ('b',), ('c',))
    """
    head = {name: name for name in names}
    for one, other in pairs:
        if one in head and other in head:
            kept, gone = head[one], head[other]
            head |= {name: kept for name, each in head.items() if each == gone}
    groups: dict[str, list[str]] = {}
    for name in names:
        groups.setdefault(head[name], []).append(name)
    return tuple(tuple(group) for group in groups.values())
