"""How the adjustments of a set are set: frozen values that travel with its model.

What is wanted is a number between two ends, or the best place, or what something looks like.
Cautions are those of the adjustment's cause; where and how to look are those of the check it
reads, unless the setting says otherwise.
"""

from dataclasses import dataclass, field
from typing import Any, Literal

from engine.diagnosis.limits import LimitText

Answer = Literal["number", "best", "spread", "outcome", "yes"]


@dataclass(frozen=True, slots=True)
class InstrumentError:
    """The usual error of an instrument in one unit, as standard deviation: percent, and fixed."""

    instrument: str
    unit: str
    percent: float
    fixed: float


@dataclass(frozen=True, slots=True)
class WantedText:
    """One thing that must hold once an adjustment is set.

    `said` is the thing in words: `3.3 V ± 0.3 V`, `the highest reading`. `answer` tells what is to
    be entered: a `number`, held to `low` and `high` in `unit`; the `best` place, a number before
    and one after; a `spread`, several numbers that lie within `spread_db`; an `outcome` of the
    check; or `yes`. An error of a frequency is that of `right_mhz`.
    """

    at: str
    said: str
    answer: Answer
    unit: str = ""
    aim: float | None = None
    low: float | None = None
    high: float | None = None
    limit: str = ""  # never passed, whatever is aimed at
    right_mhz: float | None = None
    goes_down: bool = False  # the best place is that of the lowest reading
    spread_db: float | None = None
    check: str = ""  # which reads the same thing, so that a reading is a finding
    errors: tuple[InstrumentError, ...] = ()  # of what it is read with; a bare number: the first


@dataclass(frozen=True, slots=True)
class SettingText:
    """How one adjustment is set; `id` is that of its cause. `first` must be right before it."""

    id: str
    title: str  # what is turned
    chapter: str
    check: str  # global id of the check it reads, without a channel; or empty
    where: str
    how: str
    mode: str
    load: str
    needs: tuple[str, ...]
    apply: str
    wanted: tuple[WantedText, ...]
    in_turn: bool
    turn: str
    minutes: float | None
    source: str
    first: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SettingUpText:
    """Everything on setting up one kind of set.

    `settings` are in order of knowledge. `upsets` names, for each cause that is put right inside
    the set, the adjustments it moves. `pairs` are a, b and how much of a correction of a shows
    in b, in tolerances for a tolerance.
    """

    chapters: dict[str, str]  # titles, in the usual order
    settings: dict[str, SettingText]
    upsets: dict[str, tuple[str, ...]]
    pairs: tuple[tuple[str, str, float], ...]
    usual_error: float  # tolerances by which an adjustment is off before it is set
    rules: dict[str, str] = field(default_factory=dict)  # made for the set's channels; titles
    limits: dict[str, dict[str, LimitText]] = field(default_factory=dict)  # by rules, those used


def loaded(data: dict[str, Any]) -> SettingUpText:
    """Return what was written as plain records."""
    return SettingUpText(
        chapters=data["chapters"],
        settings={name: _setting(item) for name, item in data["settings"].items()},
        upsets={name: tuple(each) for name, each in data["upsets"].items()},
        pairs=tuple((one, other, share) for one, other, share in data["pairs"]),
        usual_error=data["usual_error"],
        rules=data["rules"],
        limits={
            name: {limit: LimitText(**each) for limit, each in limits.items()}
            for name, limits in data["limits"].items()
        },
    )


def _setting(item: dict[str, Any]) -> SettingText:
    wanted = tuple(_wanted(each) for each in item.pop("wanted"))
    needs, first = tuple(item.pop("needs")), tuple(item.pop("first"))
    return SettingText(**item, wanted=wanted, needs=needs, first=first)


def _wanted(item: dict[str, Any]) -> WantedText:
    errors = tuple(InstrumentError(**each) for each in item.pop("errors"))
    return WantedText(**item, errors=errors)
