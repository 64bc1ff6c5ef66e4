"""A set in which one cause is there and nothing else is wrong: what it answers to a check."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import prod
from random import Random

from engine.diagnosis.case import Finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.frequencies.model import FREQUENCIES
from engine.diagnosis.model import SetModel
from engine.diagnosis.readings import Meter
from engine.inference.cut_sets import evaluate
from engine.inference.network import Network
from engine.inference.noisy_or import NoisyTree
from tests.frequency_truth import FrequencyTruth, truth_of

MOST_KHZ = 1500.0


@dataclass(frozen=True, slots=True)
class FaultySet:
    """The number of the true state of every variable, and the dice for what checks show of it."""

    model: SetModel
    truth: Mapping[str, int]
    dice: Random
    frequencies: FrequencyTruth | None = None

    def answer(self, check_id: str) -> Finding:
        """Return an answer to a check, drawn from P(outcome | true state)."""
        check = self.model.checks[check_id]
        state = self._state(check.looks_at)
        if check.at is not None:
            assert self.frequencies is not None
            value = max(min(self.frequencies.value(check, self.dice), MOST_KHZ), -MOST_KHZ)
            return Finding(check.id, None, value, f"{value:+.4f} {check.unit}")
        if check.meter is not None:
            said = repr(_reading(check.meter, state, self.dice))
        else:
            said = self.dice.choices(list(check.outcomes), check.channel.rows[state])[0]
        return read_answer(self.model, check_id, said)

    def _state(self, variable: str) -> int:
        """Return the true state of a variable; what comes and goes shows with its chance."""
        if variable in self.truth:
            return self.truth[variable]
        assert isinstance(self.model.tree, NoisyTree)
        node = self.model.tree.nodes[variable]
        absent = (1.0 - node.otherwise) * prod(
            1.0 - row[self.truth[cause]] for cause, row in node.chances.items()
        )
        return int(self.dice.random() >= absent)


def faulty_set(model: SetModel, network: Network, cause: str, way: str, dice: Random) -> FaultySet:
    """Return the set in which `cause` is there in its way `way`, and no event ever happened."""
    truth = evaluate(network, {cause: way})
    known = model.frequencies
    return FaultySet(
        model, truth, dice, truth_of(known, truth[FREQUENCIES], dice) if known else None
    )


def usual(model: SetModel, finding: Finding) -> bool:
    """Whether a named outcome is what a set in order shows most often."""
    check = model.checks[finding.check]
    row = check.channel.rows[0]
    return list(check.outcomes)[row.index(max(row))] == finding.outcome


def _reading(meter: Meter, state: int, dice: Random) -> float:
    """Draw a reading inside the span: misread with the chance of a slip, else of the state."""
    if dice.random() < meter.slip:
        return dice.uniform(*meter.span)
    spread = meter.spreads[state]
    while True:
        value = dice.uniform(spread.low, spread.high) + dice.gauss(0.0, spread.sd)
        if meter.span[0] <= value <= meter.span[1]:
            return value
