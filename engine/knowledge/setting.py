"""The shape of what it takes to set a mis-set adjustment right, and of the table all share.

Quantities stand as people write them, "3.3 V", "50 Hz", "3 %"; figures of the family may stand in
them. A `Setting` tells what cannot be worked out: what hangs on what follows from the signals.
"""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from engine.knowledge.document import Document, GlobalId, Id, Text, refusal

Best = Literal["peak", "null", "dip", "even", "zero"]
Spot = Literal["own", "transmit", "vco", "lo"]
FORMS = ("value", "between", "frequency", "best", "looks")


class Wanted(Document):
    """One thing that must hold: on which channels, and what the instrument must show there.

    `value` with `tolerance`, at most `limit` of the family's rules; or anything `between` two ends;
    or the `frequency` of the plan with `tolerance`; or the `best` place; or what it `looks` like.
    """

    at: str = ""  # channels, or another state of the set; the channel set for tests when empty
    value: Text | None = None
    tolerance: Text | None = None
    limit: Id | None = None
    between: tuple[Text, Text] | None = None
    frequency: Spot | None = None
    best: Best | None = None
    looks: Text | None = None
    within: str = ""  # how near to the best: "1 dB", "nine tenths, on the gentle side"

    @model_validator(mode="after")
    def one_form(self) -> "Wanted":
        """Refuse what is wanted in no way or in two, and a number without its tolerance."""
        given = [form for form in FORMS if getattr(self, form) is not None]
        if len(given) != 1:
            found, expected = " and ".join(given) or "none of them", f"one of {', '.join(FORMS)}"
            raise refusal(found, expected, "Say in one way only what is wanted.")
        if (self.tolerance is not None) != (given[0] in ("value", "frequency")):
            found = f"'{given[0]}' {'with' if self.tolerance else 'without'} 'tolerance'"
            remedy = "A value and a frequency have one, such as 'tolerance: 50 Hz'; nothing else."
            raise refusal(found, "'tolerance' where a number is wanted", remedy)
        if self.limit is not None and self.value is None:
            remedy = "Write the value that is aimed at; the limit is never passed."
            raise refusal("'limit' without 'value'", "both", remedy)
        return self


class Setting(Document):
    """How an adjustment is set: where one looks, what is wanted, what comes before.

    Where, with what and how to look come from the check it `reads`, unless they are given here.
    Adjustments of the signals before it come first; `any-level` ones need not before a peak.
    """

    title: Text | None = None  # what is turned; else the title of the cause
    chapter: Id
    reads: Id | None = None  # a check of this block, or one that every family with it has once
    where: str = ""
    needs: tuple[Id, ...] = ()
    mode: Literal["receive", "transmit", "off", "any"] | None = None
    apply: str = ""  # the signal that is applied
    wanted: tuple[Wanted, ...]
    in_turn: bool = False  # several cores, one for each thing wanted, until all hold
    turn: Text  # which way, how far, what to mind
    first: tuple[Id, ...] = ()  # signals and adjustments of the block that are right before
    after: tuple[Id, ...] = ()  # chapters that come before
    hangs_on: tuple[Id, ...] = ()  # chapters that come before, and move what was set
    moved_by: tuple[Id, ...] = ()  # signals whose own adjustments move it
    seen: Literal["here", "behind"] = "here"  # behind: through the stages that follow
    any_level: bool = False  # a peak behind it can be found wherever it stands
    turn_about: dict[Id, Annotated[float, Field(ge=0, le=1)]] = Field(default_factory=dict)
    source: Text

    @model_validator(mode="after")
    def wants_something(self) -> "Setting":
        """Refuse a setting for nothing."""
        if not self.wanted:
            raise refusal("nothing wanted", "one thing or more", "Say what must hold.")
        return self


class Pair(Document):
    """Two adjustments of different blocks that move each other.

    `moves` is how much of a correction of the first shows in the second, `is_moved` the reverse,
    both in tolerances for a tolerance.
    """

    of: tuple[GlobalId, GlobalId]
    moves: Annotated[float, Field(ge=0, le=1)]
    is_moved: Annotated[float, Field(ge=0, le=1)]
    source: Text


class SetUp(Document):
    """What only the family knows of setting it up."""

    frequencies: dict[GlobalId, Id] = Field(default_factory=dict)  # signal -> oscillator of plan
    hangs_on: dict[GlobalId, tuple[GlobalId, ...]] = Field(default_factory=dict)  # and is moved by
    pairs: tuple[Pair, ...] = ()


class Chapter(Document):
    """A part of a set-up sheet."""

    title: Text


class SettingUp(Document):
    """kb/tables/setting-up.yaml: the chapters in their usual order."""

    chapters: Annotated[dict[Id, Chapter], Field(min_length=1)]
    turn_ppm: Annotated[float, Field(gt=0)]  # how far a trimmer is usually turned
    turn_source: Text
    share: Annotated[float, Field(gt=0, le=1)]  # of a tolerance that counts as moved
    share_source: Text
    usual_error: Annotated[float, Field(gt=1)]  # tolerances an adjustment is off before it is set
    usual_error_source: Text
