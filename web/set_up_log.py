"""What the log of a case says of setting the set up: every visit to an adjustment, as typed."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

SET_UP_INPUTS = ("set", "unset", "set-up-sheet")
EVERYTHING, AFTER_REPAIR = "everything", "after-repair"
Upsets = Mapping[str, tuple[str, ...]]  # cause that is put right -> adjustments it moves


@dataclass(frozen=True, slots=True)
class Visited:
    """One visit: before and after for each thing wanted, and whether it will not come right."""

    adjustment: str
    entries: tuple[tuple[str, str], ...] = ()
    gave_up: bool = False
    at: str = ""


@dataclass(frozen=True, slots=True)
class SetUpLog:
    """Visits in order of time; those in `undone` a repair made necessary again.

    `sheet` is `everything`, `after-repair`, or empty where nobody chose.
    """

    sheet: str = ""
    visits: tuple[Visited, ...] = ()
    undone: tuple[Visited, ...] = ()

    @property
    def is_begun(self) -> bool:
        """Whether anything was adjusted."""
        return bool(self.visits or self.undone)


def set_up_logged(log: SetUpLog, given: Mapping[str, Any]) -> SetUpLog:
    """Return the log after one of `SET_UP_INPUTS`; `unset` takes the latest visit back."""
    if given["do"] == "set-up-sheet":
        return replace(log, sheet=str(given["sheet"]))
    name = str(given["adjustment"])
    if given["do"] == "set":
        gave_up, at = bool(given.get("gave-up")), str(given.get("at", ""))
        return replace(log, visits=(*log.visits, Visited(name, entries_of(given), gave_up, at)))
    places = [place for place, each in enumerate(log.visits) if each.adjustment == name]
    last = places[-1] if places else len(log.visits)
    return replace(log, visits=(*log.visits[:last], *log.visits[last + 1 :]))


def entries_of(given: Mapping[str, Any]) -> tuple[tuple[str, str], ...]:
    """Return what stands under `before-0`, `after-0`, `before-1` and so on; none if all is empty.

    >>> entries_of({"do": "set", "before-0": "2.9 V", "after-0": "3.3 V"})
    (('2.9 V', '3.3 V'),)
    """
    pairs: list[tuple[str, str]] = []
    while f"before-{len(pairs)}" in given or f"after-{len(pairs)}" in given:
        number = len(pairs)
        texts = (str(given.get(f"{when}-{number}", "")).strip() for when in ("before", "after"))
        pairs.append((next(texts), next(texts)))
    return tuple(pairs) if any(map(any, pairs)) else ()


def after_repair(log: SetUpLog, cause: str, upsets: Upsets) -> SetUpLog:
    """Return the log after a cause was put right: what that moves must be set again."""
    moved = {cause, *upsets.get(cause, ())}
    undone = tuple(each for each in log.visits if each.adjustment in moved)
    kept = tuple(each for each in log.visits if each.adjustment not in moved)
    return replace(log, visits=kept, undone=(*log.undone, *undone))
