"""A set whose true state is known, and what it answers to a check."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from math import prod
from random import Random

from engine.assessing.frequency_truth import FrequencyTruth, truth_of
from engine.diagnosis.case import Finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import likelihood
from engine.diagnosis.frequencies.model import FREQUENCIES
from engine.diagnosis.model import SetModel
from engine.diagnosis.readings import Meter
from engine.inference.cut_sets import is_basic
from engine.inference.network import Network
from engine.inference.noisy_or import NoisyTree

MOST_KHZ = 1500.0
Way = tuple[str, str]


@dataclass(frozen=True, slots=True)
class FaultySet:
    """The number of the true state of every variable, and the seed of what checks show of it.

    Every check has dice of its own, so that it answers the same whichever checks came before: two
    ways of working meet the very same set.
    """

    model: SetModel
    network: Network
    truth: Mapping[str, int]
    seed: str
    frequencies: FrequencyTruth | None = None
    repairs: int = field(default=0)

    @property
    def there(self) -> tuple[Way, ...]:
        """Return every cause that is there, in which way; what happened to the set is none."""
        found = []
        for cause in self.model.causes.values():
            if cause.kind != "event" and (state := self.truth[cause.id]):
                found.append((cause.id, list(cause.ways)[state - 1]))
        return tuple(found)

    def answer(self, check_id: str) -> Finding:
        """Return an answer to a check, drawn from P(outcome | true state)."""
        check, dice = self.model.checks[check_id], self.dice(check_id)
        if check.at is not None:
            assert self.frequencies is not None
            value = max(min(self.frequencies.value(check, dice), MOST_KHZ), -MOST_KHZ)
            return Finding(check.id, None, value, f"{value:+.4f} {check.unit}")
        state = self._state(check.looks_at, dice)
        if check.meter is not None:
            said = repr(_reading(check.meter, state, dice))
        else:
            said = dice.choices(list(check.outcomes), check.channel.rows[state])[0]
        return read_answer(self.model, check_id, said)

    def dice(self, what: str) -> Random:
        """Return the dice of one check, or of anything else that has to be drawn."""
        return Random(f"{self.seed} {self.repairs} {what}")

    def put_right(self, cause: str) -> "FaultySet":
        """Return the set after a repair: the cause is gone, and all that hung on it follows."""
        basic = {name: self.truth[name] for name in basic_variables(self.network)}
        truth = settled(self.network, basic | {cause: 0})
        new = replace(self, truth=truth, repairs=self.repairs + 1)
        return replace(new, frequencies=_frequencies(self.model, truth, self.dice("offsets")))

    def _state(self, variable: str, dice: Random) -> int:
        """Return the true state of a variable; what comes and goes shows with its chance."""
        if variable in self.truth:
            return self.truth[variable]
        assert isinstance(self.model.tree, NoisyTree)
        node = self.model.tree.nodes[variable]
        absent = (1.0 - node.otherwise) * prod(
            1.0 - row[self.truth[cause]] for cause, row in node.chances.items()
        )
        return int(dice.random() >= absent)


def faulty_set(model: SetModel, network: Network, basic: Mapping[str, int], seed: str) -> FaultySet:
    """Return the set in which the basic variables are in these states, all others fine.

    Args:
        model: how the states of this set show in its checks.
        network: its gates; what is not basic follows from them.
        basic: state by variable.
        seed: of everything the set shows.
    """
    truth = settled(network, basic)
    made = FaultySet(model, network, truth, seed)
    return replace(made, frequencies=_frequencies(model, truth, made.dice("offsets")))


def settled(network: Network, basic: Mapping[str, int]) -> dict[str, int]:
    """Return the state of every variable, given those of the basic ones; fine where not given."""
    state: dict[str, int] = {}
    for name, node in network.nodes.items():
        if is_basic(node):
            state[name] = basic.get(name, 0)
        else:
            inputs = tuple(state[parent] for parent in node.parents)
            state[name] = next(s for s in range(len(node.states)) if (*inputs, s) in node.table)
    return state


def basic_variables(network: Network) -> Iterable[str]:
    """Return the variables that no gate determines: causes, and what the set went through."""
    return (name for name, node in network.nodes.items() if is_basic(node))


def looks_right(model: SetModel, finding: Finding) -> bool:
    """Whether a finding speaks for the best state of what its check looks at."""
    vector = likelihood(model, finding)
    return vector[0] == max(vector)


def _frequencies(model: SetModel, truth: Mapping[str, int], dice: Random) -> FrequencyTruth | None:
    known = model.frequencies
    return truth_of(known, truth[FREQUENCIES], dice) if known else None


def _reading(meter: Meter, state: int, dice: Random) -> float:
    """Draw a reading inside the span: misread with the chance of a slip, else of the state."""
    if dice.random() < meter.slip:
        return dice.uniform(*meter.span)
    spread = meter.spreads[state]
    while True:
        value = dice.uniform(spread.low, spread.high) + dice.gauss(0.0, spread.sd)
        if meter.span[0] <= value <= meter.span[1]:
            return value
