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
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.cut_sets import is_basic
from engine.inference.network import Network
from engine.inference.noisy_or import NoisyTree

MOST_KHZ = 1500.0
Way = tuple[str, str]


@dataclass(frozen=True, slots=True)
class FaultySet:
    """The number of the true state of every variable, and the seed of what checks show of it.

    Every check has dice of its own, so that it answers the same whichever checks came before: two
    ways of working meet the very same set. `levels` are what checks read that something was set by,
    in their units, for as long as what they look at is right.
    """

    model: SetModel
    network: Network
    truth: Mapping[str, int]
    seed: str
    frequencies: FrequencyTruth | None = None
    repairs: int = field(default=0)
    levels: Mapping[str, float] = field(default_factory=dict)

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
            value = self.reading(check, dice)
            return Finding(check.id, None, value, f"{value:+.4f} {check.unit}")
        state = self._state(check.looks_at, dice)
        if check.meter is not None:
            slips = dice.random() < check.meter.slip
            said = repr(dice.uniform(*check.meter.span) if slips else self.reading(check, dice))
        else:
            said = dice.choices(list(check.outcomes), check.channel.rows[state])[0]
        return read_answer(self.model, check_id, said)

    def makes_sense(self, check: CheckText) -> bool:
        """Whether what a check presumes is so: of a dead set nobody tells how its meter moves."""
        return all(
            self.model.signals[signal].states[self.truth[signal]] in states
            for signal, states in check.presumes
            if signal in self.truth
        )

    def reading(self, check: CheckText, dice: Random) -> float:
        """Return a number as an instrument shows it and nobody misreads it, in the check's unit."""
        if check.at is not None:
            assert self.frequencies is not None
            return max(min(self.frequencies.value(check, dice), MOST_KHZ), -MOST_KHZ)
        assert check.meter is not None
        state, span = self._state(check.looks_at, dice), check.meter.span
        at = self._level(check, state)
        while True:
            value = at + dice.gauss(0.0, check.meter.spreads[state].sd)
            if span[0] <= value <= span[1]:
                return value

    def _level(self, check: CheckText, state: int) -> float:
        """Return where in its state a signal stands: the same however often it is read."""
        if state == 0 and check.id in self.levels:
            return self.levels[check.id]
        assert check.meter is not None
        spread = check.meter.spreads[state]
        return Random(f"{self.seed} level {check.id} {state}").uniform(spread.low, spread.high)

    def dice(self, what: str) -> Random:
        """Return the dice of one check, or of anything else that has to be drawn."""
        return Random(f"{self.seed} {self.repairs} {what}")

    def put_right(self, cause: str) -> "FaultySet":
        """Return the set after a repair: the cause is gone, and all that hung on it follows."""
        return self.turned({cause: 0})

    def turned(self, states: Mapping[str, int]) -> "FaultySet":
        """Return the set with causes in other states; what does not hang on them stays."""
        truth = settled(self.network, self.basic() | dict(states))
        new = replace(self, truth=truth, repairs=self.repairs + 1)
        before, dice = self.frequencies, self.dice("offsets")
        return replace(new, frequencies=_frequencies(self.model, truth, dice, before))

    def basic(self) -> dict[str, int]:
        """Return the states of what no gate determines."""
        return {name: self.truth[name] for name in basic_variables(self.network)}

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


def _frequencies(
    model: SetModel, truth: Mapping[str, int], dice: Random, before: FrequencyTruth | None = None
) -> FrequencyTruth | None:
    known = model.frequencies
    return truth_of(known, truth[FREQUENCIES], dice, before) if known else None
