"""The adjustments of a family, with the signals they set and are read on."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from engine.knowledge.schema import Block, Family
from engine.knowledge.setting import Setting
from engine.knowledge.signal_paths import global_signal, made_by


@dataclass(frozen=True, slots=True)
class Knob:
    """An adjustment of a family: its cause, and the signals it sets and is read on."""

    name: str  # block.cause
    block: str
    setting: Setting
    sets: frozenset[str]
    read_on: frozenset[str]  # empty where a best place or a frequency is looked for

    @property
    def is_valued(self) -> bool:
        """Whether what is wanted goes with a level, unlike a best place or a frequency."""
        first = self.setting.wanted[0]
        looks = first.looks is not None and self.setting.reads is not None
        return first.value is not None or first.between is not None or looks


def knobs_of(family: Family, blocks: Mapping[str, Block]) -> Iterator[Knob]:
    """Yield the adjustments of a family that can be set, its blocks as it has them."""
    for block, one in blocks.items():
        for name, cause in one.causes.items():
            if cause.setting is not None:
                sets = frozenset(made_by(block, cause))
                read_on = _read_on(family, blocks, block, cause.setting)
                yield Knob(f"{block}.{name}", block, cause.setting, sets, read_on)


def check_read(blocks: Mapping[str, Block], block: str, setting: Setting) -> str | None:
    """Return the global name of the check a setting reads: of its block, or the one elsewhere."""
    owners = [block, *(other for other in blocks if other != block)]
    return next((f"{o}.{setting.reads}" for o in owners if setting.reads in blocks[o].checks), None)


def _read_on(
    family: Family, blocks: Mapping[str, Block], block: str, setting: Setting
) -> frozenset[str]:
    check, wanted = check_read(blocks, block, setting), setting.wanted[0]
    if check is None or wanted.best is not None or wanted.frequency is not None:
        return frozenset()
    owner, _, name = check.partition(".")
    signal = global_signal(family, blocks, owner, blocks[owner].checks[name].looks_at)
    return frozenset({signal} if signal else ())
