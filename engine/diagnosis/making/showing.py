"""How the states of a signal show in a check: P(outcome | state), or a spread of readings."""

from collections.abc import Mapping

from engine.diagnosis.readings import Meter, Spread, cells
from engine.inference.gain import Channel, channel
from engine.knowledge.schema import Between, Check, Normal
from engine.knowledge.tables import Instrument

YES_NO = {"yes": "Yes", "no": "No"}


def outcome_titles(check: Check) -> dict[str, str]:
    """Return the outcomes of a check in words; none for a reading."""
    if check.yes:
        return dict(YES_NO)
    return {name: outcome.title for name, outcome in check.outcomes.items()}


def meter_of(
    check: Check, states: tuple[str, ...], instruments: Mapping[str, Instrument]
) -> Meter | None:
    """Return the spreads of a reading, widened by the instrument; None for other checks."""
    if not check.reads:
        return None
    assert check.span is not None
    spreads = tuple(_spread(check, check.reads[state], instruments) for state in states)
    return Meter(spreads, check.span, check.slip)


def channel_of(check: Check, states: tuple[str, ...], meter: Meter | None) -> Channel:
    """Return P(outcome | state) with rows in the order of `states`."""
    if meter is not None:
        return channel(cells(meter))
    if check.yes:
        return channel([[check.yes[state], 1.0 - check.yes[state]] for state in states])
    return channel([_row(check, state) for state in states])


def _row(check: Check, state: str) -> list[float]:
    """Share `1 - wrong` among the outcomes that stand for the state, `wrong` among the others."""
    assert check.wrong is not None
    fitting = [state in outcome.means for outcome in check.outcomes.values()]
    hits, misses = sum(fitting), len(fitting) - sum(fitting)
    wrong = check.wrong if misses else 0.0
    return [(1.0 - wrong) / hits if fits else wrong / misses for fits in fitting]


def _spread(check: Check, reads: Normal | Between, instruments: Mapping[str, Instrument]) -> Spread:
    """Return a state's readings, blurred by the first instrument that shows the unit."""
    low, high = (
        (reads.typical, reads.typical) if isinstance(reads, Normal) else (reads.low, reads.high)
    )
    own = reads.spread if isinstance(reads, Normal) else 0.0
    error = _instrument_error(check, _size(low, high), instruments)
    assert check.span is not None
    smallest = (check.span[1] - check.span[0]) * 1e-5  # keeps the edges of a range from being sharp
    return Spread(low, high, max((own**2 + error**2) ** 0.5, smallest))


def _size(low: float, high: float) -> float:
    """Return the reading at which an instrument's relative error is taken.

    The geometric mean of a range: the error at its upper end would drown a wide one's lower end.
    """
    return (low * high) ** 0.5 if low * high > 0 else min(abs(low), abs(high))


def _instrument_error(check: Check, size: float, instruments: Mapping[str, Instrument]) -> float:
    """Return the standard deviation of the instrument at a reading of `size`, in the unit."""
    percent, fixed = accuracy_of(check, instruments)
    return percent / 100.0 * abs(size) + fixed


def accuracy_of(check: Check, instruments: Mapping[str, Instrument]) -> tuple[float, float]:
    """Return the standard deviation of the first instrument that shows the unit: percent, fixed."""
    accuracy = instruments[read_with(check, instruments)].accuracy[str(check.unit)]
    return accuracy.percent, accuracy.fixed


def read_with(check: Check, instruments: Mapping[str, Instrument]) -> str:
    """Return the first instrument of a check that shows its unit."""
    return next(n for n in check.needs if str(check.unit) in instruments[n].accuracy)
