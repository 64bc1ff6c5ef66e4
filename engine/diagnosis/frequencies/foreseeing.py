"""What reading a frequency would do: a few readings that stand for all that may be read."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine.diagnosis.frequencies.choosing import Outlook
from engine.diagnosis.frequencies.model import Sound, counted
from engine.diagnosis.frequencies.points import direction_of, expected, uses_loop
from engine.diagnosis.model import CheckText

LIKELY = 0.02  # other counts are shown from here on
MOST_COUNTS = 3


@dataclass(frozen=True, slots=True)
class Possible:
    """A reading that may come: what to call it, how likely it or one like it is, and its value.

    The value is in the unit of the check.
    """

    label: str
    probability: float
    value: float


def possible_readings(believed: Outlook, check: CheckText) -> list[Possible]:
    """Return the readings a check may give: about right, low, high, and other counts."""
    assert check.at is not None
    assert check.nominal_mhz is not None
    model, at = believed.model, check.at
    right = expected(model, at.point, at.mode, at.channel or 1, Sound())
    assert right is not None
    bells = zip(model.oscillators, right.hz_per_ppm, strict=True)
    variance = right.sd_hz**2 + sum((a * each.bells[0][0].sd_ppm) ** 2 for each, a in bells)
    counts = dict(_counts(believed, check)) if uses_loop(at.point) else {0.0: 1.0}
    near = believed.distances(at.point, at.mode)
    found = []
    for words, low, high in _bands(2.0 * variance**0.5):
        rows = [(hz, p) for hz, p in near if low <= hz < high]
        total = sum(p for _, p in rows)
        if total > 0.0:
            middle = 0.0 if words == "about right" else sum(h * p for h, p in rows) / total
            found.append(_possible(check, words, counts.get(0.0, 0.0) * total, middle))
    others = sorted(((p, hz) for hz, p in counts.items() if hz), reverse=True)[:MOST_COUNTS]
    found += [_possible(check, "another count", p, hz) for p, hz in others if p >= LIKELY]
    return found


def _bands(width: float) -> list[tuple[str, float, float]]:
    far = float("inf")
    return [("about right", -width, width), ("low", -far, -width), ("high", width, far)]


def _possible(check: CheckText, words: str, probability: float, hz: float) -> Possible:
    assert check.nominal_mhz is not None
    value = hz / check.nominal_mhz if check.unit == "ppm" else hz / 1e3
    mhz = check.nominal_mhz + hz / 1e6
    return Possible(f"{words}: {mhz:.5f} MHz ({value:+.2g} {check.unit})", probability, value)


def _counts(believed: Outlook, check: CheckText) -> Iterator[tuple[float, float]]:
    """Yield how far in Hz each count is from the right one, and how likely it is to be seen."""
    assert check.at is not None
    model, at = believed.model, check.at
    chances: dict[float, float] = {}
    right = expected(model, at.point, at.mode, at.channel, Sound())
    for (fault, lock), p in believed.lines.items():
        if counted(model, at.mode, direction_of(at.point), at.channel, fault) is None:
            continue
        stands = expected(model, at.point, at.mode, at.channel, fault)
        if stands and right:
            away = round(stands.hz - right.hz)
            chances[away] = chances.get(away, 0.0) + p * (1.0 - model.wild[lock])
    yield from chances.items()
