"""Which causes no check can tell apart: exactly, from what each state shows in each check."""

from collections import defaultdict
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass

from engine.diagnosis.auditing.single import Audited, Way
from engine.diagnosis.model import CheckText


@dataclass(frozen=True, slots=True)
class Alike:
    """Ways that show the same distribution in every check, each by itself in the set.

    No answer at the bench ever changes the odds between them. `differ` are the signals in which
    they are not the same; `asked` the events that bring about some of them rather than others.
    """

    ways: tuple[Way, ...]
    differ: tuple[str, ...]
    asked: tuple[str, ...]

    @property
    def causes(self) -> tuple[str, ...]:
        """The causes of these ways, each once, in order."""
        return tuple(dict.fromkeys(cause for cause, _ in self.ways))


def alike(seen: Audited) -> tuple[Alike, ...]:
    """Return the groups of ways that no check separates: those of most causes first."""
    shown = [(check.looks_at, shows_alike(check)) for check in seen.checks.values()]
    together: dict[tuple[int, ...], list[Way]] = defaultdict(list)
    for way, truth in seen.truths.items():
        together[tuple(numbers[truth[name]] for name, numbers in shown)].append(way)
    groups = [
        Alike(tuple(sorted(ways)), tuple(_differ(seen, ways)), _asked(seen, ways))
        for ways in together.values()
        if len(ways) > 1
    ]
    return tuple(sorted(groups, key=lambda group: (-len(group.causes), group.ways)))


def shows_alike(check: CheckText) -> list[int]:
    """Return for each state the number of the first state that shows in the very same way.

    >>> from types import SimpleNamespace as Some
    >>> rows = ((0.9, 0.1), (0.2, 0.8), (0.2, 0.8))
    >>> shows_alike(Some(meter=None, channel=Some(rows=rows)))
    [0, 1, 1]
    """
    rows: list[Hashable] = [*(check.meter.spreads if check.meter else check.channel.rows)]
    return [rows.index(row) for row in rows]


def _differ(seen: Audited, ways: Sequence[Way]) -> Iterator[str]:
    """Yield the signals that are not in one state in all of these."""
    first, *rest = (seen.truths[way] for way in ways)
    for block in seen.family.blocks:
        for signal in seen.library.blocks[block].makes:
            name = f"{block}.{signal}"
            if {truth[name] for truth in rest} != {first[name]}:
                yield name


def _asked(seen: Audited, ways: Sequence[Way]) -> tuple[str, ...]:
    """Return the events that harm some of these with another chance than the rest."""
    harmed = [seen.cause(cause).harmed_by for cause in dict.fromkeys(cause for cause, _ in ways)]
    events = sorted({event for each in harmed for event in each})
    return tuple(e for e in events if len({each.get(e, 0.0) for each in harmed}) > 1)
