"""What one way of a cause does to a set: the signals it harms, the symptoms that then show."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine.diagnosis.auditing.single import Truth
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.parting import outcome_chances
from engine.inference.mixture import calibrate
from engine.inference.network import Network
from engine.inference.propagation import Calibration

RISE = 0.02  # a symptom that gains less is not worth a line
BESIDE = 3  # symptoms that rise most, beside those likelier than not


@dataclass(frozen=True, slots=True)
class Risen:
    """What shows in a symptom, and its chance without and with the cause."""

    symptom: str
    outcome: str
    before: float
    after: float


def harms(model: SetModel, net: Network, truth: Truth) -> Iterator[tuple[str, str]]:
    """Yield the signals that are not in order, with their states, makers before takers."""
    for name in net.nodes:
        if name in model.signals and truth[name]:
            yield name, model.signals[name].states[truth[name]]


def risen(model: SetModel, cause: str, way: int) -> tuple[Risen, ...]:
    """Return what a cause makes likelier than not, and what rises most beside that.

    All else that may be wrong is there by its prior, so what the same event brings about rises
    too. `way` counts from 1.
    """
    there = calibrate(model.tree, {cause: in_way(model, cause, way)})
    found = sorted(_rising(model, there), key=lambda one: (-_rise(one), one.symptom, one.outcome))
    likely = [one for one in found if one.after > 0.5]
    return (*likely, *[one for one in found if one.after <= 0.5][:BESIDE])


def in_way(model: SetModel, cause: str, way: int) -> list[float]:
    """Return the likelihood of being sure that a cause is there in one way."""
    return [float(state == way) for state in range(1 + len(model.causes[cause].ways))]


def _rising(model: SetModel, there: Calibration) -> Iterator[Risen]:
    rest = calibrated(model, ())
    for name in model.symptoms:
        check = model.checks[name]
        in_order = check.channel.rows[0]
        before, after = (
            outcome_chances(each.posterior(check.looks_at), check) for each in (rest, there)
        )
        for number, outcome in enumerate(check.outcomes):
            is_usual = in_order[number] == max(in_order)
            if after[number] - before[number] >= RISE and not is_usual:
                yield Risen(name, outcome, before[number], after[number])


def _rise(one: Risen) -> float:
    return round(one.after - one.before, 9)
