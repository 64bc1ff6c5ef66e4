"""A likelihood more on a calibrated tree, against everything worked out anew."""

from collections.abc import Sequence

import pytest

from engine.assessing.synthetic import synthetic
from engine.errors import EvidenceError
from engine.inference.junction import junction_tree
from engine.inference.likelihoods import Likelihoods, times
from engine.inference.mixture import MixedTree
from engine.inference.network import gate, network, root
from engine.inference.noisy_or import NoisyOr, NoisyTree
from engine.inference.past import AnyTree, Branch, ChangedTree, calibrate
from engine.inference.supposing import MovedCalibration, supposed
from tests.random_networks import random_likelihoods, random_network

CLOSE = 1e-12
SEEN, ABSENT = [0.0, 1.0], [1.0, 0.0]


def _same(tree: AnyTree, held: Likelihoods, variable: str, row: Sequence[float]) -> None:
    """Hold every figure of a supposed calibration against one made anew."""
    ours = supposed(tree, calibrate(tree, held), variable, row)
    theirs = calibrate(tree, times(held, {variable: row}))
    assert ours.is_possible == theirs.is_possible
    if not theirs.is_possible:
        return
    assert ours.log2_evidence == pytest.approx(theirs.log2_evidence, abs=CLOSE)
    assert ours.entropy_bits() == pytest.approx(theirs.entropy_bits(), abs=1e-10)
    for name in tree.states:
        assert ours.posterior(name) == pytest.approx(theirs.posterior(name), abs=CLOSE)


@pytest.mark.parametrize("seed", range(40))
def test_tables_move_as_if_worked_out_anew(seed: int) -> None:
    """On random networks with zeros, whatever was found before, impossible or not."""
    net = random_network(seed, 12)
    tree = junction_tree(net)
    held = random_likelihoods(net, seed, 3)
    (more,) = random_likelihoods(net, seed + 1000, 1).items()
    _same(tree, held, *more)


def _beacon(part: float) -> NoisyTree:
    """Return two causes of one signal, a third cause of another, and a knock that shows two."""
    causes = [root(name, ("fine", "bad"), (1.0 - part, part)) for name in ("rail", "joint", "plug")]
    shown = gate("lamp", ("lit", "dark"), causes[:2], lambda *s: "dark" if "bad" in s else "lit")
    heard = gate("tone", ("right", "none"), causes[2:], lambda s: "none" if s == "bad" else "right")
    knock = NoisyOr(0.03, {"joint": (0.0, 0.8), "plug": (0.0, 0.4)})
    return NoisyTree(junction_tree(network([*causes, shown, heard])), {"knock": knock})


LAMP = {"lamp": [0.1, 0.9]}
EVIDENCE: list[Likelihoods] = [
    {},
    LAMP,
    {**LAMP, "knock": ABSENT},
    {**LAMP, "knock": SEEN},
    {"tone": [0.0, 1.0], "knock": SEEN, "joint": [0.4, 0.6]},
]
MORE = [("joint", [0.0, 1.0]), ("rail", [0.3, 0.2]), ("lamp", [1.0, 0.0]), ("knock", SEEN)]


@pytest.mark.parametrize("held", EVIDENCE)
@pytest.mark.parametrize(("variable", "row"), MORE)
def test_nodes_outside_of_the_tables_go_along(
    held: Likelihoods, variable: str, row: list[float]
) -> None:
    """What was seen of them is a difference of terms, each of which moves."""
    _same(_beacon(0.1), held, variable, row)


@pytest.mark.parametrize("held", EVIDENCE)
@pytest.mark.parametrize(("variable", "row"), [*MORE, ("kind", [0.2, 0.9]), ("spare", [0.5, 0.1])])
def test_kinds_are_weighed_anew(held: Likelihoods, variable: str, row: list[float]) -> None:
    """Each member moves, also by a variable that the other lacks."""
    spare = junction_tree(network([root("spare", ("fine", "bad"), (0.8, 0.2))]))
    other = NoisyTree(spare, {})
    _same(MixedTree("kind", (0.7, 0.3), (_beacon(0.1), other)), held, variable, row)


@pytest.mark.parametrize(("variable", "row"), MORE)
def test_branches_of_the_past_are_weighed_anew(variable: str, row: list[float]) -> None:
    """What was found before a repair differs from branch to branch."""
    branches = (Branch((0,), -0.5, {"joint": [0.9, 0.1]}), Branch((1,), -2.0, {"plug": [1.0, 0.0]}))
    _same(ChangedTree(_beacon(0.2), branches), LAMP, variable, row)


def test_a_supposition_on_a_supposition() -> None:
    """The second one is worked out anew, and right."""
    tree = _beacon(0.1)
    once = supposed(tree, calibrate(tree, LAMP), "joint", [0.2, 0.8])
    twice = supposed(tree, once, "rail", [0.6, 0.4])
    held = {**LAMP, "joint": [0.2, 0.8], "rail": [0.6, 0.4]}
    assert twice.posterior("lamp") == pytest.approx(calibrate(tree, held).posterior("lamp"))


def test_what_does_not_move_is_shared() -> None:
    """A cause of one chain moves nothing of another: its chance is the very same list."""
    tree = junction_tree(synthetic(400))
    now = calibrate(tree, {"signal-0": [0.1, 0.9, 0.9], "signal-49": [0.9, 0.1, 0.1]})
    there = supposed(tree, now, "cause-0-0", [0.0, 1.0])
    assert isinstance(there, MovedCalibration)
    assert there.posterior("cause-30-0") is now.posterior("cause-30-0")
    assert there.posterior("cause-0-1") != now.posterior("cause-0-1")


def test_what_is_no_likelihood_is_refused() -> None:
    """The message is that of any evidence."""
    tree = _beacon(0.1)
    with pytest.raises(EvidenceError) as caught:
        supposed(tree, calibrate(tree, {}), "joint", [1.0])
    assert (
        str(caught.value) == "joint: found [1], expected 2 likelihoods, each finite and at least 0"
    )
