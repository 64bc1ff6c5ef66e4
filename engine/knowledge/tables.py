"""The shape of the tables that all blocks share: one frozen model for each file."""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from engine.knowledge.document import Document, Id, Share, Text, refusal

Minutes = Annotated[float, Field(ge=0, le=60)]


class PartMode(Document):
    """One way a class of part fails."""

    share: Share
    source: Text


class PartClass(Document):
    """A class of part: failure rate, ageing in an old set, and how its failures divide."""

    title: Text
    rate_per_1e6_h: Annotated[float, Field(gt=0)]
    source: Text
    old_set: Annotated[float, Field(gt=0)] = 1.0  # factor on the rate in an old, handled set
    old_set_source: Text = "estimate"
    modes: Annotated[dict[Id, PartMode], Field(min_length=1)]
    comes_and_goes: dict[Id, Share] = Field(default_factory=dict)  # occasion -> chance to show


class Parts(Document):
    """kb/tables/parts.yaml."""

    service_h: Annotated[float, Field(gt=0)]  # hours a set has been in service since last right
    service_h_source: Text
    classes: dict[Id, PartClass]


class Accuracy(Document):
    """Error of an instrument for one unit: standard deviation, relative and fixed parts."""

    percent: Annotated[float, Field(ge=0)] = 0.0
    fixed: Annotated[float, Field(ge=0)] = 0.0  # in the unit
    source: Text


class Instrument(Document):
    """Something measured with, or needed to measure."""

    title: Text
    plain: Text  # what it is, for somebody who has never seen one
    accuracy: dict[str, Accuracy] = Field(default_factory=dict)  # by unit
    said: tuple[Text, ...] = ()  # what owners call it
    ready_min: Minutes = 0.0  # to find it, connect it and set it, the first time


class Instruments(Document):
    """kb/tables/instruments.yaml."""

    each_check_min: Minutes = 0.0  # beside the check itself: reading, finding the place, noting
    lid_off_min: Minutes = 0.0
    instruments: dict[Id, Instrument]


class Caution(Document):
    """A warning shown before a step."""

    title: Text
    text: Text
    source: Text


class Cautions(Document):
    """kb/tables/cautions.yaml."""

    cautions: dict[Id, Caution]


class Limit(Document):
    """One figure of a rule set."""

    value: float | None = None
    unit: str = ""
    direction: Literal["at-most", "at-least"] | None = None  # of a figure; an error by its size
    condition: str = ""
    source: Text
    read: Literal["read", "second-hand", "memory"]

    @model_validator(mode="after")
    def can_be_judged(self) -> "Limit":
        """Refuse a figure of which nobody knows which side is right."""
        if (self.value is None) != (self.direction is None):
            found = "'direction' alone" if self.value is None else "a 'value' without 'direction'"
            remedy = "Write 'direction: at-most' or 'direction: at-least' beside the value."
            raise refusal(found, "both", remedy)
        return self


class RuleSet(Document):
    """A rule set in words: where and when it holds, and for the sets of which channels."""

    title: Text
    where: Text
    when: Text
    channels: Annotated[tuple[Id, ...], Field(min_length=1)]
    source: Text


class Limits(Document):
    """kb/tables/limits.yaml: rule set -> parameter -> limit, and each rule set in words."""

    sets: dict[Id, RuleSet] = Field(default_factory=dict)
    rules: dict[Id, dict[Id, Limit]]


class ChannelPlan(Document):
    """Carrier of every channel."""

    title: Text
    source: Text
    carriers_mhz: dict[int, float]


class ChannelPlans(Document):
    """kb/tables/channels.yaml."""

    plans: dict[Id, ChannelPlan]


class BellDocument(Document):
    """A part of an offset's distribution, in ppm."""

    share: Annotated[float, Field(gt=0, le=1)]
    mean_ppm: float
    spread_ppm: Annotated[float, Field(gt=0)]


class Offset(Document):
    """How far an oscillator is off in one state of its frequency."""

    bells: Annotated[tuple[BellDocument, ...], Field(min_length=1)]
    source: Text


class Division(Document):
    """What a state of the division number stands for, in terms of programming lines."""

    means: Literal["sound", "small-line", "large-line", "moved", "nothing"]
    source: Text


class Lock(Document):
    """The chance that the loop is out of lock on a channel, in one state of the lock."""

    wild: Annotated[float, Field(ge=0, le=1)]
    source: Text


class Frequencies(Document):
    """kb/tables/frequencies.yaml: by state of an oscillator's frequency, of division, of lock."""

    offsets: Annotated[dict[Id, Offset], Field(min_length=1)]
    division: Annotated[dict[Id, Division], Field(min_length=1)]
    lock: Annotated[dict[Id, Lock], Field(min_length=1)]


class Source(Document):
    """A reference, once, with how well it was read."""

    title: Text
    read: Literal["read", "second-hand", "memory"]
    note: str = ""


class Sources(Document):
    """kb/sources.yaml."""

    sources: dict[Id, Source]
