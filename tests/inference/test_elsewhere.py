import json
import subprocess
from collections.abc import Iterator
from math import inf
from pathlib import Path
from random import Random

import pytest

from engine.errors import EvidenceError
from engine.inference import propagation
from engine.inference.elsewhere import MOST, Elsewhere, pass_elsewhere
from engine.inference.junction import junction_tree
from engine.inference.network import network, root
from engine.inference.propagation import JunctionTree, calibrate, log2_evidence
from tests.random_networks import random_likelihoods, random_network
from web.build.node import node_command

SEEDS = range(60)
CLOSE = 1e-12
SCRIPT = Path(__file__).parents[2] / "web" / "page" / "passes.js"
DRIVER = """
import {createInterface} from "node:readline";
import {readFileSync} from "node:fs";
const source = readFileSync(process.argv[1], "utf8");
const script = await import("data:text/javascript," + encodeURIComponent(source));
for await (const line of createInterface({input: process.stdin})) {
  const {what, slot, text} = JSON.parse(line);
  console.log(JSON.stringify(script[what](slot, text) ?? ""));
}
"""


class Script:
    """The page's script of passes, run by node; counts the trees it was given."""

    def __init__(self) -> None:
        command = [*node_command(), "--input-type=module", "-e", DRIVER, str(SCRIPT)]
        pipe = subprocess.PIPE
        self.node = subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True, bufsize=1)
        self.held: list[int] = []

    def hold(self, slot: int, text: str) -> None:
        """Hand over a tree."""
        self.held.append(slot)
        self._ask("hold", slot, text)

    def evidence(self, slot: int, text: str) -> str:
        """Return what the script answers about P(evidence)."""
        return self._ask("evidence", slot, text)

    def posteriors(self, slot: int, text: str) -> str:
        """Return what the script answers about every variable."""
        return self._ask("posteriors", slot, text)

    def _ask(self, what: str, slot: int, text: str) -> str:
        assert self.node.stdin
        assert self.node.stdout
        self.node.stdin.write(json.dumps({"what": what, "slot": slot, "text": text}) + "\n")
        self.node.stdin.flush()
        return str(json.loads(self.node.stdout.readline()))


@pytest.fixture(scope="module")
def script() -> Iterator[Script]:
    """Return the script, running."""
    started = Script()
    yield started
    with started.node:
        started.node.communicate()


@pytest.fixture
def elsewhere(script: Script) -> Elsewhere:
    """Return who asks the script; it knows no tree."""
    script.held.clear()
    return Elsewhere(script.hold, script.evidence, script.posteriors)


@pytest.fixture
def passed_on(script: Script) -> Iterator[None]:
    """Let every pass be made by the script for the length of a test."""
    pass_elsewhere(script.hold, script.evidence, script.posteriors)
    yield
    propagation.ELSEWHERE.clear()


@pytest.mark.parametrize("seed", SEEDS)
def test_the_script_answers_what_python_answers(elsewhere: Elsewhere, seed: int) -> None:
    """P(evidence), every posterior and the entropy are the same, on networks with zeros."""
    net = random_network(seed, 12)
    tree, found = junction_tree(net), random_likelihoods(net, seed, 4)
    theirs, mine = elsewhere(tree, found), calibrate(tree, found)
    assert theirs is not None
    assert theirs.log2_evidence == pytest.approx(mine.log2_evidence, abs=CLOSE)
    assert theirs.is_possible == mine.is_possible
    if not mine.is_possible:
        return
    assert theirs.entropy_bits() == pytest.approx(mine.entropy_bits(), abs=CLOSE)
    for name in net.nodes:
        assert theirs.posterior(name) == pytest.approx(mine.posterior(name), abs=CLOSE)


def test_some_of_these_findings_are_possible_and_some_are_not() -> None:
    """Both kinds are among the networks above."""
    nets = [(random_network(seed, 12), seed) for seed in SEEDS]
    possible = [
        calibrate(junction_tree(net), random_likelihoods(net, seed, 4)).is_possible
        for net, seed in nets
    ]
    assert 40 <= sum(possible) < len(possible)


def test_a_pass_depends_on_none_before(elsewhere: Elsewhere) -> None:
    """Asked about other evidence in between, the very same numbers come again."""
    net = random_network(3, 12)
    tree = junction_tree(net)
    one, other = random_likelihoods(net, 3, 4), {"v0": [0.5 for _ in net.nodes["v0"].states]}
    first = elsewhere(tree, one)
    between = elsewhere(tree, other)
    again = elsewhere(tree, one)
    assert first
    assert between
    assert again
    assert [between.posterior(name) for name in net.nodes]
    for name in net.nodes:
        assert first.posterior(name) == again.posterior(name)
    assert first.log2_evidence == again.log2_evidence


BELL = junction_tree(network([root("bell", ["rings", "mute"], [0.5, 0.5])]))


def test_large_and_small_findings_are_scaled(elsewhere: Elsewhere) -> None:
    """A density is no chance: powers of 2 go apart from the digits."""
    made = elsewhere(BELL, {"bell": [2.0**300, 2.0**301]})
    assert made
    assert made.log2_evidence == pytest.approx(300 + 0.5849625007211562)  # log2(1.5)
    assert made.posterior("bell") == pytest.approx([1 / 3, 2 / 3])


def test_impossible_findings_have_no_beliefs(elsewhere: Elsewhere) -> None:
    """What cannot be is an answer."""
    made = elsewhere(BELL, {"bell": [0.0, 0.0]})
    assert made
    assert (made.log2_evidence, made.beliefs) == (-inf, ())


@pytest.mark.usefixtures("passed_on")
def test_products_that_may_vanish_are_left_to_python() -> None:
    """Both passes are then made in logarithms, and nothing is lost."""
    lopsided = {"bell": [1.0, 1e-300]}
    assert propagation.ELSEWHERE[0](BELL, lopsided) is None
    assert calibrate(BELL, lopsided).posterior("bell") == pytest.approx([1.0, 1e-300], rel=1e-9)
    assert log2_evidence(BELL, lopsided) == pytest.approx(-1.0)


@pytest.mark.usefixtures("passed_on")
def test_every_pass_goes_to_the_script(script: Script) -> None:
    """Posteriors, and P(evidence) alone; the tree travels once."""
    script.held.clear()
    found = {"bell": [0.5, 0.25]}
    assert calibrate(BELL, found).posterior("bell") == pytest.approx([2 / 3, 1 / 3])
    assert log2_evidence(BELL, found) == pytest.approx(-1.415037499278844)  # log2(3/8)
    assert len(script.held) == 1


def test_beliefs_of_cliques_are_there_for_who_asks(elsewhere: Elsewhere) -> None:
    """They are worked out in Python when first asked for, and are the same."""
    net = random_network(3, 12)
    tree, found = junction_tree(net), random_likelihoods(net, 3, 4)
    made = elsewhere(tree, found)
    assert made
    assert len(made.beliefs) == len(tree.cliques)
    assert [*made.beliefs] == [*calibrate(tree, found).beliefs]


def test_trees_give_way_when_there_are_many(elsewhere: Elsewhere, script: Script) -> None:
    """So many are held; the oldest is handed over anew when it is asked about again."""
    dice = Random("bells")
    chances = [dice.random() for _ in range(MOST + 1)]
    trees = [_bell(chance) for chance in chances]
    for tree, chance in [*zip(trees, chances, strict=True), (trees[0], chances[0])]:
        made = elsewhere(tree, {})
        assert made
        assert made.posterior("bell") == pytest.approx([chance, 1.0 - chance])
    assert script.held == [*range(MOST), 0, 1]


def _bell(chance: float) -> JunctionTree:
    return junction_tree(network([root("bell", ["rings", "mute"], [chance, 1.0 - chance])]))


def test_a_vector_that_says_nothing_is_refused(elsewhere: Elsewhere) -> None:
    """The same words as in Python."""
    with pytest.raises(EvidenceError) as refused:
        elsewhere(BELL, {"bell": [0.5]})
    expected = "expected 2 likelihoods, each finite and at least 0"
    assert str(refused.value) == f"bell: found [0.5], {expected}"
