"""General libraries made ready for a job, each by its best public calls.

They are told beforehand what is asked for, keep their engine from step to step, and are told only
what changed where they take that. pgmpy takes findings by multiplying them into its cliques; one
calibration then serves all posteriors.
"""

from collections.abc import Callable, Mapping
from importlib import import_module
from importlib.util import find_spec
from typing import Any
from warnings import catch_warnings, simplefilter

from engine.assessing.race import Answer, Job, Posteriors, Row
from engine.inference.network import Network


def is_installed(way: str) -> bool:
    """Whether the library of a way is there."""
    return find_spec(way.split()[0]) is not None


def shafer_shenoy(job: Job) -> Answer:
    """Return Shafer-Shenoy by pyAgrum, one engine for all steps, the finding changed in it."""
    return _kept(job, "ShaferShenoyInference")


def lazy_propagation(job: Job) -> Answer:
    """Return lazy propagation by pyAgrum, one engine for all steps, the finding changed in it."""
    return _kept(job, "LazyPropagation")


def lazy_told_anew(job: Job) -> Answer:
    """Return lazy propagation by pyAgrum, one engine, all findings told anew at each step."""
    engine, wanted = _engine(job, "LazyPropagation"), job.wanted

    def answer(row: Row) -> Posteriors:
        engine.setEvidence(_evidence(job, row))
        engine.makeInference()
        return {name: engine.posterior(name).tolist() for name in wanted}

    return answer


def belief_propagation(job: Job) -> Answer:
    """Return belief propagation by pgmpy: findings in the cliques, one calibration a step."""
    inference: Any = import_module("pgmpy.inference")
    factors: Any = import_module("pgmpy.factors.discrete")
    engine = inference.BeliefPropagation(_pgmpy_net(job.network))
    tree = engine.junction_tree
    home = {name: clique for clique in sorted(tree.nodes, key=len, reverse=True) for name in clique}
    for name, held in job.held.items():
        tree.get_factors(home[name]).product(factors.DiscreteFactor([name], [len(held)], held))
    told = tree.get_factors(home[job.changing]).copy()
    wanted = job.wanted

    def answer(row: Row) -> Posteriors:
        factor = tree.get_factors(home[job.changing])
        factor.values = told.values.copy()
        factor.product(factors.DiscreteFactor([job.changing], [len(row)], list(row)))
        engine.calibrate()
        beliefs = engine.get_clique_beliefs()
        return {name: _marginal(beliefs[home[name]], name) for name in wanted}

    return answer


WAYS: Mapping[str, Callable[[Job], Answer]] = {
    "pyagrum Shafer-Shenoy": shafer_shenoy,
    "pyagrum lazy": lazy_propagation,
    "pyagrum lazy, told anew": lazy_told_anew,
    "pgmpy beliefs": belief_propagation,
}


def _kept(job: Job, kind: str) -> Answer:
    engine, wanted = _engine(job, kind), job.wanted

    def answer(row: Row) -> Posteriors:
        engine.chgEvidence(job.changing, list(row))
        engine.makeInference()
        return {name: engine.posterior(name).tolist() for name in wanted}

    return answer


def _engine(job: Job, kind: str) -> Any:
    """Return an engine that knows what is asked for and what was found, one step behind it."""
    with catch_warnings():
        simplefilter("ignore")  # its wrapper is older than this Python
        gum: Any = import_module("pyagrum")
    engine = getattr(gum, kind)(_pyagrum_net(gum, job.network))
    engine.setTargets(set(job.wanted))
    states = len(job.network.nodes[job.changing].states)
    engine.setEvidence(_evidence(job, [0.5] * states))
    engine.makeInference()
    return engine


def _evidence(job: Job, row: Row) -> dict[str, list[float]]:
    return {**{name: list(held) for name, held in job.held.items()}, job.changing: list(row)}


def _pyagrum_net(gum: Any, network: Network) -> Any:
    made = gum.BayesNet()
    for node in network.nodes.values():
        made.add(gum.LabelizedVariable(node.name, node.name, list(node.states)))
        for parent in node.parents:
            made.addArc(parent, node.name)
    for node in network.nodes.values():
        table, names = made.cpt(node.name), (*node.parents, node.name)
        table.fillWith(0.0)
        for assignment, p in node.table.items():
            table[dict(zip(names, assignment, strict=True))] = p
    return made


def _pgmpy_net(network: Network) -> Any:
    models: Any = import_module("pgmpy.models")
    factors: Any = import_module("pgmpy.factors.discrete")
    numpy: Any = import_module("numpy")
    made = models.DiscreteBayesianNetwork()
    made.add_nodes_from(network.nodes)
    made.add_edges_from((p, node.name) for node in network.nodes.values() for p in node.parents)
    cards = network.cards()
    for name, node in network.nodes.items():
        sizes = [cards[parent] for parent in node.parents]
        values = numpy.zeros((cards[name], *sizes))
        for assignment, p in node.table.items():
            values[(assignment[-1], *assignment[:-1])] = p
        table = values.reshape(cards[name], -1)
        parents = (list(node.parents), sizes) if sizes else (None, None)
        made.add_cpds(factors.TabularCPD(name, cards[name], table, *parents))
    return made


def _marginal(belief: Any, name: str) -> list[float]:
    others = [each for each in belief.scope() if each != name]
    alone = belief.marginalize(others, inplace=False) if others else belief
    total = float(alone.values.sum())
    return [float(p) / total for p in alone.values]
