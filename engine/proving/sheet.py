"""What is measured before one kind of set is called right; frozen values only, for the page too."""

from dataclasses import dataclass, field

from engine.diagnosis.model import CautionText, LimitText


@dataclass(frozen=True, slots=True)
class Meter:
    """An instrument for a point, and its usual accuracy in `unit`, as standard deviation."""

    instrument: str
    unit: str
    percent: float
    fixed: float
    source: str


@dataclass(frozen=True, slots=True)
class Bound:
    """A figure that a reading is held to.

    A guide says what it `says` when it is not kept. `against` is the point that holds the power
    of which decibels are told.
    """

    limit: LimitText
    is_guide: bool = False
    against: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class Point:
    """One thing to be measured on one channel; without a unit, to be seen: yes or no.

    `bounds` go by rule set. `right_mhz` is what a counter should show. `same_as` are checks, of
    this set or another, that find the same thing out.
    """

    id: str  # `carrier-frequency@40`, or without a channel where there is only one
    title: str
    asks: str
    how: str
    channel: int
    carrier_mhz: float
    right_mhz: float
    unit: str
    quantity: str
    meters: tuple[Meter, ...]
    needs: tuple[str, ...]
    cautions: tuple[str, ...]
    bounds: dict[str, tuple[Bound, ...]]
    same_as: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rules:
    """A rule set in words; `not_held` are its limits that no point of this set looks at."""

    id: str
    title: str
    where: str
    when: str
    source: str
    not_held: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class ProofSheet:
    """Everything the proof of one kind of set needs to know. Compared by identity."""

    family: str
    title: str
    version: str
    rules: str  # those of the family
    rule_sets: dict[str, Rules]  # those made for the set's channels
    elsewhere: tuple[str, ...]  # rule sets that are known, but for other channels
    points: tuple[Point, ...]
    cautions: dict[str, CautionText] = field(default_factory=dict)
    instruments: dict[str, str] = field(default_factory=dict)  # titles

    def point(self, name: str) -> Point | None:
        """Return a point by its id."""
        return next((each for each in self.points if each.id == name), None)
