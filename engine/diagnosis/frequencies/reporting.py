"""What the frequency readings come to, in words and numbers for people."""

from collections.abc import Sequence
from dataclasses import dataclass

from engine.diagnosis.frequencies.estimates import OffsetEstimate, estimates
from engine.diagnosis.frequencies.likelihood import fault_posterior
from engine.diagnosis.frequencies.model import (
    FrequencyModel,
    LineFault,
    Moved,
    NoCount,
    Reading,
)
from engine.radio.plans.lines import StuckLine

WORTH_TELLING = 0.02
AT_REST_PPM = 2.0  # nobody turns a core for less
SUSPECT = 0.1
TRIMMER_PPM = 110.0  # beyond that nothing is done by turning
BEFORE_TURNING = ("dummy-load-first", "cores", "transmitter-rules")  # cautions


@dataclass(frozen=True, slots=True)
class OscillatorReport:
    """An oscillator: how far off, what its test point reads and must read, which way to turn.

    Frequencies in MHz; the interval holds the middle 95 % of what is believed. The offset is the
    mean of what is believed, given that it is off where that is likelier than not.
    """

    id: str
    title: str
    p_off: float
    offset_ppm: float
    low_ppm: float
    high_ppm: float
    right_mhz: float
    reads_mhz: float
    turn: str
    is_to_be_turned: bool  # `turn` may lead to a tool in a trimmer


@dataclass(frozen=True, slots=True)
class LineReport:
    """What may be wrong with the programming lines, in words, and how likely it is."""

    words: str
    probability: float


@dataclass(frozen=True, slots=True)
class FrequencyReport:
    """Everything the readings of frequencies say together."""

    oscillators: tuple[OscillatorReport, ...]
    lines: tuple[LineReport, ...]


def report(
    model: FrequencyModel, readings: tuple[Reading, ...], posterior: Sequence[float]
) -> FrequencyReport:
    """Return what the readings come to, given P(joint state | everything)."""
    oscillators = [_oscillator(model, each) for each in estimates(model, readings, posterior)]
    lines = [
        LineReport(words_of(fault), p)
        for fault, p in fault_posterior(model, readings, posterior).items()
        if p >= WORTH_TELLING
    ]
    return FrequencyReport(tuple(oscillators), tuple(lines))


def words_of(fault: LineFault) -> str:
    """Return a line fault in words."""
    match fault:
        case StuckLine(line, state):
            return f"line {line.upper()} stuck {'high' if state else 'low'}"
        case Moved(by):
            steps = "step" if abs(by) == 1 else "steps"
            return f"every channel {abs(by)} {steps} too {'high' if by > 0 else 'low'} in the count"
        case NoCount():
            return "no sensible count on any channel"
    return "the lines count right"


def _oscillator(model: FrequencyModel, estimate: OffsetEstimate) -> OscillatorReport:
    oscillator = model.plan.oscillators[estimate.oscillator]
    right_hz = float(oscillator.hz)
    is_off = estimate.p_off >= 0.5
    offset_ppm = estimate.if_off_ppm if is_off else estimate.mean_ppm
    away_hz = right_hz * offset_ppm * 1e-6
    is_open = estimate.low_ppm < 0.0 < estimate.high_ppm
    is_told = not is_open and abs(estimate.mean_ppm) >= AT_REST_PPM
    return OscillatorReport(
        id=oscillator.id,
        title=oscillator.title,
        p_off=estimate.p_off,
        offset_ppm=offset_ppm,
        low_ppm=estimate.low_ppm,
        high_ppm=estimate.high_ppm,
        right_mhz=right_hz / 1e6,
        reads_mhz=(right_hz + away_hz) / 1e6,
        turn=_turn(estimate, away_hz) if is_told else _no_turn(estimate),
        is_to_be_turned=is_told,
    )


def _no_turn(estimate: OffsetEstimate) -> str:
    """Return what to do where it may as well be right."""
    if estimate.p_off < SUSPECT:
        return "leave it: nothing that was read says that it is off"
    return "read on before anything is turned: it may be this one, and may not"


def _turn(estimate: OffsetEstimate, away_hz: float) -> str:
    """Return which way to turn, or where to look when no trimmer goes so far."""
    way = "lower" if away_hz > 0.0 else "raise"
    if abs(estimate.if_off_ppm) > TRIMMER_PPM and estimate.p_off >= 0.5:
        side = "high" if away_hz > 0.0 else "low"
        far = f"it is {side} by about {abs(away_hz):.0f} Hz, more than a trimmer moves"
        return f"{far}: look at crystal, trimmer and capacitors"
    change = "more" if away_hz > 0.0 else "less"
    return f"{way} it by about {abs(away_hz):.0f} Hz: {change} capacitance in its trimmer"
