"""The points where a frequency is read, and what must stand there."""

from dataclasses import dataclass
from functools import lru_cache

from engine.diagnosis.frequencies.model import FrequencyModel, LineFault, counted
from engine.radio.plans.arithmetic import Frequency, centre, local_oscillator, transmitted, vco
from engine.radio.plans.plan import Direction

OSCILLATOR = "oscillator:"
CENTRE_SD_HZ = 800.0  # filters off centre, and how well the middle is found by ear; an estimate
GENERATOR_PPM = 3.0  # a generator's own error, as a counter's of 5 ppm; an estimate
HEARD_SD_HZ = 3000.0  # a channel found with a second set: nearer to this one than to the next


@dataclass(frozen=True, slots=True)
class Expected:
    """What a reading is when all is right, in Hz, and what moves it.

    `hz_per_ppm` has one figure for each oscillator of the model; `timebase_hz_per_ppm` is 0 where
    no counter is used; `sd_hz` is the noise of this reading alone.
    """

    hz: float
    hz_per_ppm: tuple[float, ...]
    timebase_hz_per_ppm: float
    sd_hz: float


def uses_loop(point: str) -> bool:
    """Whether what is read at a point comes from the loop, so that it is wild out of lock."""
    return not point.startswith(OSCILLATOR)


def direction_of(point: str) -> Direction:
    """Return whether a point is read with the button pressed."""
    return "transmit" if point in {"transmit", "heard"} else "receive"


@lru_cache(maxsize=4096)
def expected(
    model: FrequencyModel, point: str, mode: str, channel: int, fault: LineFault
) -> Expected | None:
    """Return what is expected with a line fault, None when nothing sensible stands there."""
    n: int | None = 0
    if uses_loop(point):
        n = counted(model, mode, direction_of(point), channel, fault)
    if n is None:
        return None
    at = _frequency(model, point, mode, n)
    per_ppm = at.hz_per_ppm(model.plan)
    hz = float(at.hz(model.plan))
    row = tuple(per_ppm.get(each.oscillator, 0.0) for each in model.oscillators)
    noise = model.counter.resolution_hz
    if point == "centre":
        return Expected(hz, row, 0.0, (CENTRE_SD_HZ**2 + (hz * GENERATOR_PPM * 1e-6) ** 2) ** 0.5)
    if point == "heard":
        return Expected(hz, row, 0.0, HEARD_SD_HZ)
    return Expected(hz, row, -hz * 1e-6, noise)


def _frequency(model: FrequencyModel, point: str, mode: str, n: int) -> Frequency:
    if point in {"transmit", "heard"}:
        return transmitted(model.plan, mode, n)
    if point == "vco":
        return vco(model.plan, mode, "receive", n)
    if point == "lo":
        return local_oscillator(model.plan, mode, n)
    if point == "centre":
        return centre(model.plan, mode, n)
    return Frequency({point.removeprefix(OSCILLATOR): 1})  # type: ignore[dict-item]
