"""A frequency model as plain data and back; the plan is kept beside it."""

from collections.abc import Mapping
from typing import Any

from engine.diagnosis.frequencies.model import (
    Bell,
    Counter,
    FrequencyModel,
    LineFault,
    Moved,
    NoCount,
    OscillatorStates,
    Sound,
)
from engine.radio.plans.lines import StuckLine
from engine.radio.plans.plan import Plan


def plain(model: FrequencyModel) -> dict[str, Any]:
    """Return a frequency model as what JSON knows."""
    return {
        "oscillators": [
            [
                each.oscillator,
                [[[b.share, b.mean_ppm, b.sd_ppm] for b in bells] for bells in each.bells],
            ]
            for each in model.oscillators
        ],
        "divisions": [
            [[_plain_fault(fault), share] for fault, share in row] for row in model.divisions
        ],
        "wild": list(model.wild),
        "counter": [model.counter.timebase_ppm, model.counter.resolution_hz],
        "slip": model.slip,
        "span_hz": model.span_hz,
    }


def loaded(data: Mapping[str, Any], plan: Plan) -> FrequencyModel:
    """Return the frequency model that `plain` was given."""
    return FrequencyModel(
        plan,
        tuple(
            OscillatorStates(name, tuple(tuple(Bell(*bell) for bell in bells) for bells in rows))
            for name, rows in data["oscillators"]
        ),
        tuple(tuple((_fault(fault), share) for fault, share in row) for row in data["divisions"]),
        tuple(data["wild"]),
        Counter(*data["counter"]),
        data["slip"],
        data["span_hz"],
    )


def _plain_fault(fault: LineFault) -> Any:
    match fault:
        case StuckLine(line, state):
            return [line, state]
        case Moved(by):
            return by
        case NoCount():
            return None
    return ""


def _fault(data: Any) -> LineFault:
    if isinstance(data, list):
        return StuckLine(*data)
    if isinstance(data, int):
        return Moved(data)
    return NoCount() if data is None else Sound()
