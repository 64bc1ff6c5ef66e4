from collections.abc import Sequence
from random import Random

import pytest

from engine.inference import junction
from engine.inference.hanging import Link, hang_low
from engine.inference.junction import junction_tree
from engine.inference.network import Network
from engine.inference.propagation import JunctionTree, calibrate
from tests import oracles
from tests.random_networks import random_likelihoods, random_network

SEEDS = range(60)
CLOSE = 1e-12


def link(scope: str, separator: str, parent: int) -> Link:
    """Return a clique over variables of one letter each."""
    return Link(frozenset(scope), frozenset(separator), parent)


def test_a_clique_moves_below_the_smallest_that_holds_its_separator() -> None:
    """The large one keeps no child that a smaller one can have."""
    links = [link("ax", "a", 2), link("ab", "a", 2), link("abc", "", -1)]
    assert hang_low(links, [4, 4, 90]) == [1, 2, -1]


def test_a_clique_never_moves_below_itself() -> None:
    """The smallest that holds the separator hangs below the clique: it stays where it is."""
    links = [link("ax", "a", 1), link("ay", "a", 2), link("abc", "", -1)]
    assert hang_low(links, [2, 4, 90]) == [1, 2, -1]


def test_of_two_alike_the_parent_is_kept() -> None:
    """Nothing moves for nothing."""
    links = [link("ax", "a", 2), link("ay", "a", 2), link("ab", "", -1)]
    assert hang_low(links, [4, 4, 4]) == [2, 2, -1]


def test_unconnected_parts_stay_apart() -> None:
    """A root of the forest has no separator and nothing to hang on."""
    assert hang_low([link("a", "", -1), link("b", "", -1)], [2, 2]) == [-1, -1]


def random_links(seed: int) -> list[Link]:
    """Return cliques with running intersection: each shares some variables with its parent."""
    dice = Random(f"links {seed}")
    links = [link("abcdef", "", -1)]
    for number in range(25):
        parent = dice.randrange(len(links))
        scope = sorted(links[parent].scope)
        shared = frozenset(dice.sample(scope, dice.randint(1, min(3, len(scope)))))
        links.append(Link(shared | {f"v{number}", f"w{number}"}, shared, parent))
    return links


@pytest.mark.parametrize("seed", SEEDS)
def test_the_running_intersection_stays(seed: int) -> None:
    """Moved or not: a forest, each separator in both cliques, each variable in one piece."""
    links, dice = random_links(seed), Random(seed)
    sizes = [dice.randint(2, 50) for _ in links]
    parents = hang_low(links, sizes)
    assert running(links, parents)
    assert sum(sizes[p] for p in parents if p >= 0) <= sum(
        sizes[one.parent] for one in links if one.parent >= 0
    )
    for one, parent in zip(links, parents, strict=True):
        assert (parent < 0) == (one.parent < 0)
        if parent >= 0:
            assert one.scope & links[parent].scope == one.separator


def running(links: Sequence[Link], parents: Sequence[int]) -> bool:
    """Whether the cliques with any one variable hang together: all but one have it in common."""
    for variable in set().union(*(one.scope for one in links)):
        holding = [n for n, one in enumerate(links) if variable in one.scope]
        tops = [n for n in holding if parents[n] < 0 or variable not in links[parents[n]].scope]
        if len(tops) != 1:
            return False
    return True


@pytest.mark.parametrize("seed", SEEDS)
def test_hanging_low_changes_no_answer(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """With and without, P(evidence) and posteriors are those of the enumeration."""
    net, found = case_of(seed)
    low = junction_tree(net, 3)
    monkeypatch.setattr(junction, "hang_low", lambda links, sizes: [one.parent for one in links])
    for tree in (low, junction_tree(net, 3)):
        rows = oracles.joint(net, found)
        after = calibrate(tree, found)
        assert after.is_possible == bool(rows)
        for name, node in net.nodes.items() if rows else ():
            exact = oracles.posterior(rows, name, len(node.states))
            assert after.posterior(name) == pytest.approx(exact, abs=CLOSE)


def case_of(seed: int) -> tuple[Network, dict[str, list[float]]]:
    """Return a random network and findings."""
    net = random_network(seed, 10, most_parents=2)
    return net, random_likelihoods(net, seed, 3)


def test_it_lowers_the_work_of_many_trees(monkeypatch: pytest.MonkeyPatch) -> None:
    """Never more than without, and less for at least a third of these networks."""
    nets = [random_network(seed, 25, most_parents=2) for seed in range(30)]
    low: list[JunctionTree] = [junction_tree(net) for net in nets]
    monkeypatch.setattr(junction, "hang_low", lambda links, sizes: [one.parent for one in links])
    saved = [junction_tree(net).work - tree.work for net, tree in zip(nets, low, strict=True)]
    assert min(saved) >= 0
    assert sum(gain > 0 for gain in saved) >= 10
