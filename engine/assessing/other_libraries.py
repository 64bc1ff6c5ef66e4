"""The same posteriors by a general library, where it is installed, by its best public calls.

One made-up set, one finding on its last signal. The posteriors of all causes are asked for, which
the library is told beforehand; our tree, compiled once, is passed over anew.
"""

from collections.abc import Callable, Mapping
from importlib import import_module
from importlib.util import find_spec
from statistics import median
from typing import Any
from warnings import catch_warnings, simplefilter

from engine.assessing.speed import ROUNDS, timed
from engine.assessing.synthetic import STATES, synthetic
from engine.inference.junction import junction_tree
from engine.inference.network import Network
from engine.inference.propagation import calibrate

CAUSES = 200
SEEN = 1  # the state in which the last signal is seen
Posteriors = Mapping[str, float]


def against(library: str) -> tuple[object, ...]:
    """Return a row: the library, its time and ours, the ratio, the largest difference."""
    if find_spec(library) is None:
        return library, "not installed", "-", "-", "-"
    net = synthetic(CAUSES)
    causes = [name for name in net.nodes if name.startswith("cause-")]
    last = next(reversed(net.nodes))
    theirs = OTHERS[library](net, causes, last)
    ours = _ours(net, causes, last)
    apart = max(abs(theirs()[name] - p) for name, p in ours().items())
    their_ms = median(timed(theirs) for _ in range(ROUNDS))
    our_ms = median(timed(ours) for _ in range(ROUNDS))
    ratio = f"{their_ms / our_ms:.1f}"
    return library, f"{their_ms:.1f}", f"{our_ms:.1f}", ratio, f"{apart:.0e}"


def _ours(net: Network, causes: list[str], last: str) -> Callable[[], Posteriors]:
    tree = junction_tree(net)
    held = {last: [float(state == SEEN) for state in range(len(STATES))]}

    def run() -> Posteriors:
        known = calibrate(tree, held)
        return {name: known.posterior(name)[1] for name in causes}

    return run


def _pyagrum(net: Network, causes: list[str], last: str) -> Callable[[], Posteriors]:
    """Return a run of lazy propagation that was told its targets, made anew each time."""
    with catch_warnings():
        simplefilter("ignore")  # its wrapper is older than this Python
        gum: Any = import_module("pyagrum")
    theirs = gum.BayesNet()
    for node in net.nodes.values():
        theirs.add(gum.LabelizedVariable(node.name, node.name, list(node.states)))
        for parent in node.parents:
            theirs.addArc(parent, node.name)
    for node in net.nodes.values():
        table, names = theirs.cpt(node.name), (*node.parents, node.name)
        table.fillWith(0.0)
        for assignment, p in node.table.items():
            table[dict(zip(names, assignment, strict=True))] = p

    def run() -> Posteriors:
        engine = gum.LazyPropagation(theirs)
        engine.setTargets(set(causes))
        engine.setEvidence({last: SEEN})
        engine.makeInference()
        return {name: float(engine.posterior(name)[1]) for name in causes}

    return run


OTHERS: Mapping[str, Callable[[Network, list[str], str], Callable[[], Posteriors]]] = {
    "pyagrum": _pyagrum,
}
