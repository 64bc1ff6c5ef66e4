"""Adjustments of a simulated set: which are off, and what turning one does to the others.

How far each is off is counted in tolerances; more than one, and its cause is there. A repair, or
turning another one, moves those that the knowledge says it moves: a repair by up
to the usual error of the knowledge, a turn by its share of the correction, where no share is known
by up to the whole of it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from random import Random

from engine.assessing.drawing import drawn_way
from engine.assessing.faulty_set import FaultySet
from engine.assessing.frequency_truth import trimmed
from engine.diagnosis.case import Finding
from engine.diagnosis.frequencies.model import FREQUENCIES
from engine.setting_up.ordering import shares_of

OUT = 1.0  # tolerances


@dataclass(frozen=True, slots=True)
class Adjustable:
    """A set, and by how many tolerances adjustments are off, where one was moved or looked at."""

    bench: FaultySet
    errors: Mapping[str, float] = field(default_factory=dict)

    def error(self, name: str) -> float:
        """Return by how many tolerances an adjustment is off, 0 where nobody moved it."""
        if name in self.errors:
            return self.errors[name]
        if not self.bench.truth[name]:
            return 0.0
        dice = self.bench.dice(f"off {name}")
        return dice.choice((-1.0, 1.0)) * dice.uniform(OUT, max(self._most(), OUT))

    def error_shown(self, name: str) -> float:
        """Return by how many tolerances a reading is off that this does not bring right."""
        return self.error(name) or self._most()

    def repaired(self, cause: str) -> "Adjustable":
        """Return the set after a cause was put right, or what was thought to be one."""
        return replace(self, bench=self.bench.put_right(cause), errors={**self.errors, cause: 0.0})

    def upset_by(self, cause: str) -> "Adjustable":
        """Return the set with what a repair moved: to anywhere within the usual error."""
        text = self.bench.model.setting_up
        now = self
        for name in text.upsets.get(cause, ()) if text else ():
            dice = self.bench.dice(f"moved {cause} {name}")
            now = now._at(name, dice.uniform(-self._most(), self._most()))
        return now

    def set_right(self, name: str) -> "Adjustable":
        """Return the set after an adjustment was set; what it moves is off by that much more."""
        text = self.bench.model.setting_up
        assert text is not None
        correction, shares = self.error(name), shares_of(text)
        now = self._at(name, 0.0)
        for other in text.upsets.get(name, ()):
            dice = self.bench.dice(f"moved {name} {other}")
            share = shares.get((name, other), dice.uniform(-1.0, 1.0))
            now = now._at(other, now.error(other) + share * correction)
        return now

    def reading(self, name: str, finding: Finding) -> "Adjustable":
        """Return the set in which an adjustment was turned until a check read so."""
        assert finding.value is not None
        if self.bench.model.checks[finding.check].at is not None:
            return self._trimmed(name, finding)
        levels = {**self.bench.levels, finding.check: finding.value}
        return replace(self, bench=replace(self.bench, levels=levels))

    def _trimmed(self, name: str, finding: Finding) -> "Adjustable":
        """Return the set with the oscillator an adjustment moves where a frequency was read."""
        known, truth = self.bench.model.frequencies, self.bench.frequencies
        assert known is not None, "a frequency is read"
        assert truth is not None
        assert finding.value is not None
        states = list(known.states())
        fine, off = (
            states[self.bench.turned({name: state}).truth[FREQUENCIES]] for state in (0, 1)
        )
        check = self.bench.model.checks[finding.check]
        places = [n for n in range(len(known.oscillators)) if fine[n] != off[n]]
        for place in places[:1]:
            truth = trimmed(truth, place, check, finding.value)
        return replace(self, bench=replace(self.bench, frequencies=truth))

    def with_fine(self, names: tuple[str, ...]) -> FaultySet:
        """Return the set as it would be with some adjustments where they belong."""
        return self.bench.turned(dict.fromkeys(names, 0))

    def _at(self, name: str, error: float) -> "Adjustable":
        """Return the set with an adjustment off by so much; its cause is there or gone."""
        was, is_out = self.bench.truth[name], abs(error) > OUT
        way = was or drawn_way(self.bench.network, name, self.bench.dice(f"way {name}"))
        state = way if is_out else 0
        bench = self.bench if state == was else self.bench.turned({name: state})
        return Adjustable(_without_levels(bench, name), {**self.errors, name: error})

    def _most(self) -> float:
        text = self.bench.model.setting_up
        return text.usual_error if text else 0.0


def _without_levels(bench: FaultySet, name: str) -> FaultySet:
    """Return a set in which nobody knows any more what an adjustment was set to."""
    assert bench.model.setting_up is not None
    read = {wanted.check for wanted in bench.model.setting_up.settings[name].wanted}
    levels = {check: value for check, value in bench.levels.items() if check not in read}
    return replace(bench, levels=levels)


def within(low: float, high: float, dice: Random) -> float:
    """Return where somebody stops turning: evenly in the middle half of what is wanted."""
    middle, half = (low + high) / 2.0, (high - low) / 2.0
    return dice.uniform(middle - half / 2.0, middle + half / 2.0)
