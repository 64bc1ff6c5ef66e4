"""Which adjustment must be right before which, and what moves an adjustment that was right.

Both follow from the signals of a family, from its frequency plan, and from what authors add.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from engine.knowledge.hanging_frequencies import FrequencyTies
from engine.knowledge.knobs import Knob, knobs_of
from engine.knowledge.schema import Block, Cause, Family
from engine.knowledge.setting import SettingUp
from engine.knowledge.signal_paths import SignalPaths, global_signal, made_by, signal_paths
from engine.radio.plans.plan import Plan

Names = tuple[str, ...]
Pairs = Mapping[tuple[str, str], float]
MENDED = ("fault", "adjustment", "modification")  # what is put right inside the set


@dataclass(frozen=True, slots=True)
class Hanging:
    """What comes first for each adjustment, what each cause upsets, and which move each other."""

    first: Mapping[str, Names]
    upsets: Mapping[str, Names]  # only causes that upset something
    pairs: Pairs  # a, b -> how much of a correction of a shows in b
    knobs: Mapping[str, Knob] = field(default_factory=dict)


def hanging(
    family: Family, blocks: Mapping[str, Block], table: SettingUp, plan: Plan | None
) -> Hanging:
    """Return what hangs on what in a family, its blocks as it has them."""
    knobs = {knob.name: knob for knob in knobs_of(family, blocks)}
    pairs = _pairs(family, knobs)
    frequencies = FrequencyTies(family, plan, table, knobs)
    paths, chapters = signal_paths(family, blocks), tuple(table.chapters)
    ties = _Ties(family, blocks, paths, knobs, pairs, frequencies, chapters)
    upsets = {
        f"{block}.{name}": ties.upset(block, f"{block}.{name}", cause)
        for block, one in blocks.items()
        for name, cause in one.causes.items()
        if cause.kind in MENDED
    }
    return Hanging(
        {name: ties.first(knob) for name, knob in knobs.items()},
        {name: each for name, each in upsets.items() if each},
        pairs,
        knobs,
    )


def _pairs(family: Family, knobs: Mapping[str, Knob]) -> dict[tuple[str, str], float]:
    pairs = {
        (knob.name, f"{knob.block}.{other}"): share
        for knob in knobs.values()
        for other, share in knob.setting.turn_about.items()
        if f"{knob.block}.{other}" in knobs
    }
    for pair in family.set_up.pairs:
        pairs[pair.of] = pair.moves
        pairs[pair.of[1], pair.of[0]] = pair.is_moved
    return pairs


@dataclass(frozen=True, slots=True)
class _Ties:
    """Everything that ties the adjustments of one family together."""

    family: Family
    blocks: Mapping[str, Block]
    paths: SignalPaths
    knobs: Mapping[str, Knob]
    pairs: Pairs
    frequencies: FrequencyTies
    chapters: Names

    def first(self, knob: Knob) -> Names:
        """Return the adjustments that must be right before one, in order of knowledge."""
        setting = knob.setting
        before, told = self._signals_before(knob), self._told_before(knob)
        joining, chapters = self._joining(knob), {*setting.after, *setting.hangs_on}

        def comes_first(other: Knob) -> bool:
            if other.name == knob.name or (knob.name, other.name) in self.pairs:
                return False
            if other.name in told or other.setting.chapter in chapters:
                return True
            behind = other.sets & joining and self._is_no_later(other, knob)
            return bool(behind or other.sets & before) and self._counts(other, knob)

        return tuple(name for name, other in self.knobs.items() if comes_first(other))

    def upset(self, block: str, name: str, cause: Cause) -> Names:
        """Return the adjustments that are moved when something at a cause is mended or turned."""
        made, turned = made_by(block, cause), self.knobs.get(name)
        level = self.paths.moved(made)
        moved = self.frequencies.upset(made)
        if turned is not None:
            chapters = {turned.setting.chapter}
        else:
            chapters = {k.setting.chapter for k in self.knobs.values() if k.block == block}

        def is_upset(knob: Knob) -> bool:
            own = turned is None and knob.block == block and knob.sets & made
            goes = knob.is_valued and level & (knob.read_on or knob.sets)
            near = self._named(knob, knob.setting.moved_by) & made
            behind = made and chapters & {*knob.setting.hangs_on}
            told = name in self.family.set_up.hangs_on.get(knob.name, ())
            paired = (name, knob.name) in self.pairs
            return bool(own or goes or near or behind or told or paired or knob.name in moved)

        return tuple(each for each, knob in self.knobs.items() if each != name and is_upset(knob))

    def _signals_before(self, knob: Knob) -> set[str]:
        """Return the signals that must be right before an adjustment is looked at."""
        named = self._named(knob, (*knob.setting.first, *knob.setting.moved_by))
        if knob.setting.wanted[0].frequency == "own":  # a crystal hangs on what is named alone
            return (self.paths.before(named) | named) - knob.sets
        before = self.paths.before(knob.sets | knob.read_on | named) | named | knob.read_on
        return before - knob.sets

    def _joining(self, knob: Knob) -> set[str]:
        """Return what the stages add that follow an adjustment, where it is seen behind them."""
        if knob.setting.seen == "here":
            return set()
        fed = set(self.family.wiring.get(knob.block, {}).values())
        return self.paths.joining(knob.sets) - fed - self.paths.before(fed)

    def _is_no_later(self, other: Knob, knob: Knob) -> bool:
        chapters = list(self.chapters)
        return chapters.index(other.setting.chapter) <= chapters.index(knob.setting.chapter)

    def _told_before(self, knob: Knob) -> set[str]:
        """Return the adjustments that authors, and the plan, put before one."""
        told = {f"{knob.block}.{name}" for name in knob.setting.first}
        told.update(self.family.set_up.hangs_on.get(knob.name, ()))
        return told | self.frequencies.first(knob.name)

    def _counts(self, other: Knob, knob: Knob) -> bool:
        """Whether it matters where another one stands, when only its signals lie before."""
        if not other.setting.any_level:
            return True
        return knob.is_valued and bool(self.paths.moved(other.sets) & (knob.read_on or knob.sets))

    def _named(self, knob: Knob, names: Collection[str]) -> set[str]:
        signals = (global_signal(self.family, self.blocks, knob.block, name) for name in names)
        return {signal for signal in signals if signal is not None}
