"""What one way of a cause does to a set, read off the tree: signals put out, symptoms that show."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from engine.diagnosis.advising.parting import outcome_chances
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.inference.past import calibrate
from engine.inference.propagation import Calibration

RISE = 0.02  # a symptom that gains less is not worth a line
LIKELY = 0.5
BESIDE = 3  # symptoms that rise most, beside those likelier than not


@dataclass(frozen=True, slots=True)
class Risen:
    """What shows in a symptom, and its chance without and with the cause."""

    symptom: str
    outcome: str
    before: float
    after: float


@lru_cache(maxsize=16)
def _there(model: SetModel, cause: str, way: int) -> Calibration:
    """Return the tree, sure that a cause is there in one way; both parts of a page ask for it."""
    return calibrate(model.tree, {cause: in_way(model, cause, way)})


def is_of_a_block(model: SetModel, name: str) -> bool:
    """Whether a signal or cause stands in a block; what comes and goes is of the whole set."""
    return name.partition(".")[0] in model.blocks


def put_out(model: SetModel, cause: str, way: int) -> tuple[tuple[str, str], ...]:
    """Return the signals that a cause puts out of order, likelier than not, with their states.

    Those that are likely to be so without it are left out, and those of no block (what comes and
    goes), which take a pass each. `way` counts from 1.
    """
    there = _there(model, cause, way)
    rest = calibrated(model, ())
    found = []
    for name, signal in model.signals.items():
        if not is_of_a_block(model, name):
            continue
        states = there.posterior(name)
        if states[0] < LIKELY <= rest.posterior(name)[0]:
            found.append((name, signal.states[states.index(max(states[1:]))]))
    return tuple(found)


def risen(
    model: SetModel, cause: str, way: int, symptoms: Sequence[str] | None = None
) -> tuple[Risen, ...]:
    """Return what a cause makes likelier than not, and what rises most beside that.

    Of all symptoms, or of some. All else that may be wrong is there by its prior, so what the same
    event brings about rises too. `way` counts from 1.
    """
    there = _there(model, cause, way)
    rising = _rising(model, there, model.symptoms if symptoms is None else symptoms)
    found = sorted(rising, key=lambda one: (-_rise(one), one.symptom, one.outcome))
    likely = [one for one in found if one.after > 0.5]
    return (*likely, *[one for one in found if one.after <= 0.5][:BESIDE])


def in_way(model: SetModel, cause: str, way: int) -> list[float]:
    """Return the likelihood of being sure that a cause is there in one way."""
    return [float(state == way) for state in range(1 + len(model.causes[cause].ways))]


def _rising(model: SetModel, there: Calibration, symptoms: Sequence[str]) -> Iterator[Risen]:
    rest = calibrated(model, ())
    for name in symptoms:
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
