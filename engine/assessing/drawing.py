"""Sets with so many faults, drawn from the priors of the knowledge."""

from collections.abc import Mapping
from random import Random

from engine.assessing.faulty_set import FaultySet, basic_variables, faulty_set
from engine.diagnosis.model import SetModel
from engine.errors import EngineError
from engine.inference.network import Network

FAULTS = ("1", "2", "3", "some", "any")
FAULTS_HELP = "how many things are wrong: so many, at least one, or whatever the priors give"
MOST_DRAWS = 20_000


class TooRare(EngineError):
    """The priors hardly ever give as many causes at once as were asked for."""


def drawn_set(model: SetModel, network: Network, faults: str, seed: str) -> FaultySet:
    """Return a set drawn from the priors, given how many causes are there.

    The whole network is drawn, what happened to the set and what the knowledge does not list too,
    again and again until as many causes are there as `faults` (one of `FAULTS`) wants: an exact
    draw from the conditional distribution.

    Raises:
        TooRare: the priors hardly ever give so many.
    """
    dice = Random(f"{seed} {faults}")
    causes = [cause.id for cause in model.causes.values() if cause.kind != "event"]
    for _ in range(MOST_DRAWS):
        basic = drawn_roots(network, dice)
        there = sum(basic[cause] > 0 for cause in causes)
        if faults == "any" or (there > 0 if faults == "some" else there == int(faults)):
            return faulty_set(model, network, basic, seed)
    raise TooRare(
        f"{model.family.id}: found no set with {faults} causes in {MOST_DRAWS} draws from the "
        "priors\n  Ask for fewer faults at once."
    )


def drawn_roots(network: Network, dice: Random) -> Mapping[str, int]:
    """Return a state of every variable that no gate determines, drawn from its own table."""
    states: dict[str, int] = {}
    for name in basic_variables(network):
        node = network.nodes[name]
        given = tuple(states[parent] for parent in node.parents)
        shares = [node.table.get((*given, s), 0.0) for s in range(len(node.states))]
        states[name] = dice.choices(range(len(shares)), shares)[0]
    return states


def one_cause(model: SetModel, network: Network, cause: str, seed: str) -> FaultySet:
    """Return a set in which one cause is there, in a way drawn by its share, and nothing else."""
    return faulty_set(
        model, network, {cause: drawn_way(network, cause, Random(f"{seed} way"))}, seed
    )


def drawn_way(network: Network, cause: str, dice: Random) -> int:
    """Return the number of a way in which a cause is there, drawn by its share."""
    node = network.nodes[cause]
    first = (0,) * len(node.parents)
    shares = [node.table.get((*first, s), 0.0) for s in range(1, len(node.states))]
    return 1 + dice.choices(range(len(shares)), shares)[0]
