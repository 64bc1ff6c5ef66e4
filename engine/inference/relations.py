"""Tables as relations: only the assignments that are possible, each with its value."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from operator import itemgetter

from engine.inference.network import Assignment

Pick = Callable[[Assignment], Assignment]


@dataclass(frozen=True, slots=True)
class Relation:
    """The non-zero entries of a table over `scope`."""

    scope: tuple[str, ...]
    entries: dict[Assignment, float]


def project(relation: Relation, onto: tuple[str, ...]) -> Relation:
    """Return the support of `relation` on some of its variables, as ones."""
    pick = picker(relation.scope, onto)
    return Relation(onto, dict.fromkeys(map(pick, relation.entries), 1.0))


def restrict(
    relation: Relation, onto: tuple[str, ...], allowed: dict[Assignment, float]
) -> Relation:
    """Return the entries of `relation` that are among the `allowed` ones on some variables."""
    pick = picker(relation.scope, onto)
    kept = {entry: value for entry, value in relation.entries.items() if pick(entry) in allowed}
    return Relation(relation.scope, kept)


def picker(scope: tuple[str, ...], onto: Sequence[str]) -> Pick:
    """Return what takes the states of some variables out of an assignment of `scope`, in C."""
    places = [scope.index(name) for name in onto]
    match places:
        case []:
            return lambda _: ()
        case [place]:
            return lambda entry: (entry[place],)
    return itemgetter(*places)


def join(scope: tuple[str, ...], relations: list[Relation]) -> Relation:
    """Return the product of `relations` over `scope`, connected ones first.

    Two variables of a clique share a table or a child's separator, so that none is left over.
    """
    joined = Relation((), {(): 1.0})
    waiting = list(relations)
    while waiting:
        best = max(waiting, key=lambda r: (len(set(r.scope) & set(joined.scope)), -len(r.entries)))
        waiting.remove(best)
        joined = _product(joined, best)
    pick = picker(joined.scope, scope)
    return Relation(scope, {pick(entry): value for entry, value in joined.entries.items()})


def _product(left: Relation, right: Relation) -> Relation:
    """Return the join of two relations, values multiplied."""
    shared = [name for name in right.scope if name in left.scope]
    fresh = tuple(name for name in right.scope if name not in left.scope)
    key, rest_of = picker(right.scope, shared), picker(right.scope, fresh)
    groups: dict[Assignment, list[tuple[Assignment, float]]] = {}
    for entry, value in right.entries.items():
        groups.setdefault(key(entry), []).append((rest_of(entry), value))
    pick = picker(left.scope, shared)
    entries = {
        entry + rest: value * more
        for entry, value in left.entries.items()
        for rest, more in groups.get(pick(entry), ())
    }
    return Relation(left.scope + fresh, entries)
