"""What one oscillator does to a frequency that is set elsewhere, out of the frequency plan."""

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from engine.knowledge.knobs import Knob
from engine.knowledge.schema import Family
from engine.knowledge.setting import SettingUp, Wanted
from engine.radio.plans.arithmetic import Frequency, count, local_oscillator, transmitted, vco
from engine.radio.plans.plan import Plan
from engine.radio.quantities import read_number

NUMBER = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class FrequencyTies:
    """The adjustments of a family that set a frequency, and how they move each other's."""

    family: Family
    plan: Plan | None
    table: SettingUp
    knobs: Mapping[str, Knob]

    def first(self, name: str) -> set[str]:
        """Return the adjustments whose oscillator counts in the frequency this one is set to."""
        moving = set(self._moving(self.knobs[name]))
        return {
            other
            for other, knob in self.knobs.items()
            if other != name and moving & set(self._oscillators(knob.sets))
        }

    def upset(self, signals: Collection[str]) -> set[str]:
        """Return the adjustments set to a frequency that these signals move."""
        turned = set(self._oscillators(signals))
        return {name for name, knob in self.knobs.items() if turned & set(self._moving(knob))}

    def wanted(self, name: str, wanted: Wanted) -> Frequency | None:
        """Return the frequency an adjustment is set to, None where it is set to none."""
        if wanted.frequency is None or self.plan is None:
            return None
        if wanted.frequency == "own":
            owners = list(self._oscillators(self.knobs[name].sets))
            return Frequency({owners[0]: Fraction(1)}) if owners else None
        return at_point(self.plan, wanted.frequency, channel_of(self.plan, wanted.at))

    def _oscillators(self, signals: Collection[str]) -> Iterator[str]:
        tied = {signal: name for name, signal in self.family.oscillators.items()}
        tied |= self.family.set_up.frequencies
        return (tied[signal] for signal in sorted(signals) if signal in tied)

    def _moving(self, knob: Knob) -> Iterator[str]:
        """Yield the oscillators, other than its own, that move a frequency by more than a share."""
        wanted = knob.setting.wanted[0]
        frequency = self.wanted(knob.name, wanted)
        if frequency is None or self.plan is None:
            return
        hz = float(frequency.hz(self.plan))
        least = tolerance_hz(wanted, hz) * self.table.share
        own = set(self._oscillators(knob.sets))
        for oscillator, per_ppm in frequency.hz_per_ppm(self.plan).items():
            if oscillator not in own and abs(per_ppm) * self.table.turn_ppm > least:
                yield oscillator


def tolerance_hz(wanted: Wanted, hz: float) -> float:
    """Return how far a frequency may be off."""
    text = wanted.tolerance or "0 Hz"
    return read_number(text, "ppm") * hz * 1e-6 if text.endswith("ppm") else read_number(text, "Hz")


def channel_of(plan: Plan, at: str) -> int:
    """Return the first channel of the plan that a text names, else the one in its middle."""
    named = [int(each) for each in NUMBER.findall(at) if int(each) in plan.carriers]
    channels = list(plan.carriers)
    return named[0] if named else channels[len(channels) // 2]


def at_point(plan: Plan, point: str, channel: int) -> Frequency:
    """Return what must stand at a point on a channel, in the first mode of the plan."""
    mode = next(iter(plan.modes))
    if point == "transmit":
        return transmitted(plan, mode, count(plan, "transmit", channel))
    n = count(plan, "receive", channel)
    return local_oscillator(plan, mode, n) if point == "lo" else vco(plan, mode, "receive", n)
