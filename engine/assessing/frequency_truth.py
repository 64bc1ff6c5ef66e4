"""What a counter reads in a set whose state is known: offsets, line and timebase drawn once."""

from dataclasses import dataclass, replace
from random import Random

from engine.diagnosis.frequencies.checks import hz_read
from engine.diagnosis.frequencies.model import FrequencyModel, LineFault, Sound
from engine.diagnosis.frequencies.points import expected, uses_loop
from engine.diagnosis.model import CheckText


@dataclass(frozen=True, slots=True)
class FrequencyTruth:
    """Offsets in ppm, the timebase's last; a line fault; the chance that a channel runs wild.

    `numbers` are the states of the oscillators, of the division number and of the lock.
    """

    model: FrequencyModel
    numbers: tuple[int, ...]
    offsets_ppm: tuple[float, ...]
    fault: LineFault
    wild: float

    def value(self, check: CheckText, dice: Random | None = None) -> float:
        """Return what is read as an error in the unit of the check; without dice the mean."""
        assert check.at is not None
        assert check.nominal_mhz is not None
        at = check.at
        right = expected(self.model, at.point, at.mode, at.channel or 1, self.fault)
        chance = dice.random() if dice else 0.5
        if right is None or (uses_loop(at.point) and chance < self.wild):
            right = expected(self.model, at.point, at.mode, at.channel or 1, Sound())
            assert right is not None
            away = dice.uniform(-4e5, 4e5) if dice else 123_456.0
        else:
            row = (*right.hz_per_ppm, right.timebase_hz_per_ppm)
            away = sum(a * ppm for a, ppm in zip(row, self.offsets_ppm, strict=True))
            away += dice.gauss(0.0, right.sd_hz) if dice else 0.0
        error_hz = right.hz + away - check.nominal_mhz * 1e6
        if check.unit == "ppm":
            return error_hz / check.nominal_mhz
        return error_hz / {"kHz": 1e3, "Hz": 1.0}[str(check.unit)]


def truth_of(
    model: FrequencyModel,
    state: int,
    dice: Random | None = None,
    before: FrequencyTruth | None = None,
) -> FrequencyTruth:
    """Return a set in one joint state; without dice the first of everything it may mean.

    What is in the same state as `before` a repair keeps its offset, or its line; and nobody
    changed the counter.
    """
    numbers = tuple(list(model.states())[state])
    offsets = []
    for place, (each, its) in enumerate(zip(model.oscillators, numbers, strict=False)):
        bells = each.bells[its]
        bell = dice.choices(bells, [bell.share for bell in bells])[0] if dice else bells[0]
        offset = dice.gauss(bell.mean_ppm, bell.sd_ppm) if dice else bell.mean_ppm
        is_kept = before is not None and before.numbers[place] == its
        offsets.append(before.offsets_ppm[place] if before and is_kept else offset)
    faults = model.divisions[numbers[-2]]
    fault = dice.choices(faults, [share for _, share in faults])[0] if dice else faults[0]
    line = before.fault if before and before.numbers[-2] == numbers[-2] else fault[0]
    timebase = dice.gauss(0.0, model.counter.timebase_ppm) if dice else 0.0
    timebase = before.offsets_ppm[-1] if before else timebase
    return FrequencyTruth(model, numbers, (*offsets, timebase), line, model.wild[numbers[-1]])


def trimmed(truth: FrequencyTruth, place: int, check: CheckText, wanted: float) -> FrequencyTruth:
    """Return the set after one oscillator was turned until a check reads `wanted`, in its unit.

    Where the reading does not hang on that oscillator, or nothing sensible is read, it stays.
    """
    assert check.at is not None
    at = check.at
    right = expected(truth.model, at.point, at.mode, at.channel or 1, truth.fault)
    per_ppm = right.hz_per_ppm[place] if right else 0.0
    if per_ppm == 0.0:
        return truth
    away_hz = hz_read(check, truth.value(check)) - hz_read(check, wanted)
    offsets = list(truth.offsets_ppm)
    offsets[place] -= away_hz / per_ppm
    return replace(truth, offsets_ppm=tuple(offsets))
