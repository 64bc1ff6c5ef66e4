"""Compile a network to a junction tree of flat tables, zero entries left out.

References:
    Lauritzen & Spiegelhalter, J. R. Statist. Soc. B 50 (1988) 157-224.
    Jensen, Lauritzen & Olesen, Computational Statistics Quarterly 4 (1990) 269-282.
"""

from dataclasses import dataclass

from engine.inference.hanging import Link, hang_low
from engine.inference.network import Assignment, Network, Node
from engine.inference.relations import Relation, join, picker, project, restrict
from engine.inference.tree import Clique, Home, JunctionTree
from engine.inference.triangulation import Elimination, eliminations, moral_graph

KEEP = 8  # orders that are compiled: the dense size only hints at the true one


@dataclass(slots=True)
class _Bucket:
    """A clique under construction."""

    scope: tuple[str, ...]
    separator: tuple[str, ...]
    parent: int
    children: list[int]
    nodes: list[Node]


def junction_tree(network: Network, tries: int = 1, keep: int = KEEP) -> JunctionTree:
    """Return the compiled tree of `network`; it holds every variable in at least one clique.

    Args:
        network: what to compile.
        tries: how many elimination orders to try; more take longer and give smaller tables.
        keep: how many of them to compile, which takes longest.
    """
    cards = network.cards()
    graph = moral_graph(network)
    candidates = eliminations(graph, cards, tries, min(tries, keep))
    # Plain min-fill is compiled in any case, so that trying more never ends with a larger tree.
    plain = [one for one in eliminations(graph, cards, 1, 1) if one not in candidates]
    joined = (_joined(network, elimination) for elimination in [*candidates, *plain])
    best = min(joined, key=_work)
    return _flatten(network, *best)


Joined = tuple[list[_Bucket], list[Relation]]  # cliques, children first, and their entries


def _work(joined: Joined) -> int:
    """Return what one pass would visit: `JunctionTree.work` before there is a tree."""
    return sum(len(r.entries) * (1 + len(b.children)) for b, r in zip(*joined, strict=True))


def _joined(network: Network, elimination: Elimination) -> Joined:
    buckets = _buckets(network, elimination)
    relations = _join_upwards(buckets)
    links = [Link(frozenset(b.scope), frozenset(b.separator), b.parent) for b in buckets]
    parents = hang_low(links, [len(relation.entries) for relation in relations])
    for bucket, parent in zip(buckets, parents, strict=True):
        bucket.parent = parent
    order = _children_first(buckets)
    return [buckets[n] for n in order], [relations[n] for n in order]


def _buckets(network: Network, elimination: Elimination) -> list[_Bucket]:
    """Return the maximal cliques, children before parents, each table put where it fits."""
    position = {name: number for number, name in enumerate(elimination.order)}
    host = _absorb(elimination, position)
    kept = [name for name in elimination.order if host[name] == name]
    number = {name: index for index, name in enumerate(kept)}
    buckets = [_Bucket(_scope(name, elimination), (), -1, [], []) for name in kept]
    for name in elimination.order:
        later = elimination.neighbours[name]
        if not later:
            continue
        mine, above = number[host[name]], number[host[min(later, key=position.__getitem__)]]
        if mine != above:
            buckets[mine].separator = tuple(sorted(later))
            buckets[mine].parent = above
    for node in network.nodes.values():
        first = min((node.name, *node.parents), key=position.__getitem__)
        buckets[number[host[first]]].nodes.append(node)
    return [buckets[number] for number in _children_first(buckets)]


def _absorb(elimination: Elimination, position: dict[str, int]) -> dict[str, str]:
    """Return for each variable the one whose clique holds its own clique as a part.

    A clique is part of a child's clique when the child's separator is the whole of it.
    """
    host: dict[str, str] = {}
    for name in elimination.order:
        host.setdefault(name, name)
        later = elimination.neighbours[name]
        if not later:
            continue
        above = min(later, key=position.__getitem__)
        if above not in host and len(elimination.neighbours[above]) + 1 == len(later):
            host[above] = host[name]
    return host


def _scope(name: str, elimination: Elimination) -> tuple[str, ...]:
    return tuple(sorted((name, *elimination.neighbours[name])))


def _children_first(buckets: list[_Bucket]) -> list[int]:
    """Return the cliques in an order with every parent behind its children; renumber them so."""
    below: list[list[int]] = [[] for _ in buckets]
    for number, bucket in enumerate(buckets):
        if bucket.parent >= 0:
            below[bucket.parent].append(number)
    order: list[int] = []
    stack = [(number, False) for number, b in enumerate(buckets) if b.parent < 0]
    while stack:
        number, expanded = stack.pop()
        if expanded:
            order.append(number)
        else:
            stack.append((number, True))
            stack.extend((child, False) for child in below[number])
    new = {old: index for index, old in enumerate(order)}
    for bucket, children in zip(buckets, below, strict=True):
        bucket.parent = new.get(bucket.parent, -1)
        bucket.children = sorted(new[child] for child in children)
    return order


def _join_upwards(buckets: list[_Bucket]) -> list[Relation]:
    """Return the non-zero entries of every clique: its tables joined with its children's supports.

    A second sweep, down, drops what the parent cannot have.
    """
    relations: list[Relation] = []
    for bucket in buckets:
        below = [project(relations[child], buckets[child].separator) for child in bucket.children]
        tables = [Relation((*node.parents, node.name), node.table) for node in bucket.nodes]
        relations.append(join(bucket.scope, [*tables, *below]))
    for number in reversed(range(len(buckets))):
        parent = buckets[number].parent
        if parent >= 0:
            allowed = project(relations[parent], buckets[number].separator).entries
            relations[number] = restrict(relations[number], buckets[number].separator, allowed)
    return relations


def _flatten(network: Network, buckets: list[_Bucket], relations: list[Relation]) -> JunctionTree:
    """Turn assignments, in the order of their states, into flat lists of numbers and indices."""
    relations = [Relation(r.scope, dict(sorted(r.entries.items()))) for r in relations]
    codes = [
        {key: index for index, key in enumerate(project(relation, bucket.separator).entries)}
        for bucket, relation in zip(buckets, relations, strict=True)
    ]
    cliques = tuple(
        Clique(
            weights=tuple(relation.entries.values()),
            parent=bucket.parent,
            separator_size=len(codes[number]),
            to_separator=_indices(relation, bucket.separator, codes[number]),
            children=tuple(
                (child, _indices(relation, buckets[child].separator, codes[child]))
                for child in bucket.children
            ),
        )
        for number, (bucket, relation) in enumerate(zip(buckets, relations, strict=True))
    )
    return JunctionTree(cliques, _homes(network, relations))


def _indices(
    relation: Relation, onto: tuple[str, ...], code: dict[Assignment, int]
) -> tuple[int, ...]:
    pick = picker(relation.scope, onto)
    return tuple(map(code.__getitem__, map(pick, relation.entries)))


def _homes(network: Network, relations: list[Relation]) -> dict[str, Home]:
    """Return for every variable the smallest clique that holds it."""
    smallest: dict[str, int] = {}
    for number, relation in enumerate(relations):
        for name in relation.scope:
            best = smallest.get(name)
            if best is None or len(relation.entries) < len(relations[best].entries):
                smallest[name] = number
    homes = {}
    for name, node in network.nodes.items():
        relation = relations[smallest[name]]
        column = relation.scope.index(name)
        states = tuple(entry[column] for entry in relation.entries)
        homes[name] = Home(smallest[name], len(node.states), states)
    return homes
