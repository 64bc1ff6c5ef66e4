"""From checked knowledge to the frequency model of a family, at build time."""

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
from engine.inference.network import Network
from engine.knowledge.library import Library
from engine.knowledge.schema import Family
from engine.knowledge.tables import Offset
from engine.radio.plans.lines import StuckLine
from engine.radio.plans.plan import Plan
from engine.radio.plans.stuck import stuck_effects

COUNTER = "frequency-counter"
RESOLUTION_HZ = 10.0  # a gate of a second, and the last digit's flicker
FURTHEST_MOVE = 20  # steps by which somebody may have moved all channels


def make_frequencies(
    library: Library, family: Family, plan: Plan, net: Network
) -> FrequencyModel | None:
    """Return what frequency readings tell of a family, None when its knowledge does not say."""
    table = library.frequencies
    if table is None or family.division is None or family.lock is None or not family.oscillators:
        return None
    oscillators = tuple(
        OscillatorStates(name, tuple(_bells(table.offsets[s]) for s in net.nodes[signal].states))
        for name, signal in family.oscillators.items()
    )
    wild = tuple(table.lock[state].wild for state in net.nodes[family.lock].states)
    states = net.nodes[family.division].states
    divisions = divisions_of(plan, [table.division[state].means for state in states])
    return FrequencyModel(plan, oscillators, divisions, wild, _counter(library))


def divisions_of(
    plan: Plan, meanings: list[str]
) -> tuple[tuple[tuple[LineFault, float], ...], ...]:
    """Return the line faults that states of the division number stand for, with equal shares."""
    small, large = _lines(plan)
    moved = [Moved(by) for by in range(-FURTHEST_MOVE, FURTHEST_MOVE + 1) if by]
    faults: dict[str, list[LineFault]] = {
        "sound": [Sound()],
        "small-line": [*small],
        "large-line": [*large],
        "moved": [*moved],
        "nothing": [NoCount()],
    }
    rows = [faults[each] or [NoCount()] for each in meanings]
    return tuple(tuple((fault, 1.0 / len(row)) for fault in row) for row in rows)


def _lines(plan: Plan) -> tuple[list[StuckLine], list[StuckLine]]:
    """Return the stuck lines that leave every channel in the VCO's reach, and the others.

    A line that never has to move harms nothing and is in neither.
    """
    effects = stuck_effects(plan, next(iter(plan.modes)))
    small = [each.fault for each in effects if each.shifts_hz and not each.lost]
    return small, [each.fault for each in effects if each.lost]


def _bells(offset: Offset) -> tuple[Bell, ...]:
    total = sum(bell.share for bell in offset.bells)
    return tuple(Bell(bell.share / total, bell.mean_ppm, bell.spread_ppm) for bell in offset.bells)


def _counter(library: Library) -> Counter:
    return Counter(library.instruments[COUNTER].accuracy["ppm"].fixed, RESOLUTION_HZ)
