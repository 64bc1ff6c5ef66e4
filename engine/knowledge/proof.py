"""The shape of kb/tables/proof.yaml: what is measured before a set is called right.

A figure of a rule set is a limit; a figure of what such sets usually do is a guide.
"""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from engine.knowledge.document import Document, GlobalId, Id, Text, refusal
from engine.knowledge.fitted import Fitted
from engine.knowledge.measured import Quantity

OF_RULES = "deviation-limit"  # a guide that is a share of the limit itself
Direction = Literal["at-most", "at-least"]
ChannelWord = Literal["low", "middle", "high"]


class GuideDocument(Document):
    """A usual figure: `value`, or as many times the figure `of` of the family."""

    value: float
    of: Id | None = None
    unit: str
    direction: Direction
    says: Text  # what it means when it is not kept
    source: Text


class BoundDocument(Fitted):
    """A figure that a reading is held to: a limit of the rules, or a guide.

    `against` is another point: a power is then told in decibels below the power read there, and
    decibels below it as a power.
    """

    limit: Id | None = None
    guide: GuideDocument | None = None
    against: Id | None = None

    @model_validator(mode="after")
    def one_of_two(self) -> "BoundDocument":
        """Refuse a bound that is neither, or both."""
        if (self.limit is None) == (self.guide is None):
            found = "neither" if self.limit is None else "both"
            remedy = "Write the limit's name, or a guide with its figure."
            raise refusal(found, "one of 'limit' and 'guide'", remedy)
        return self


class PointDocument(Fitted):
    """One thing to be measured, or to be seen, before a set is called right."""

    title: Text
    asks: Text
    how: Text
    channels: Annotated[tuple[ChannelWord, ...], Field(min_length=1)] = ("middle",)
    measured_with: dict[Id, str] = Field(default_factory=dict)  # instrument -> unit it reads
    needs: tuple[Id, ...] = ()  # what else it takes
    unit: str | None = None  # of the reading; none where it is answered yes or no
    quantity: Quantity | None = None
    tone_khz: float = 0.0  # of a sideband frequency: above the carrier, or below it
    bounds: tuple[BoundDocument, ...] = ()
    cautions: tuple[Id, ...] = ()
    same_as: tuple[GlobalId, ...] = ()  # checks that find the very same thing out
    source: Text

    @model_validator(mode="after")
    def can_be_held(self) -> "PointDocument":
        """Refuse a reading without instrument or figure, and figures of what is only seen."""
        read = (self.unit is not None, bool(self.measured_with), bool(self.bounds))
        if any(read) != all(read):
            found = "some of them" if any(read) else "none"
            remedy = "Write all three for a reading, none for what is answered yes or no."
            raise refusal(found, "'unit', 'measured-with' and 'bounds' together", remedy)
        return self


class Proof(Document):
    """kb/tables/proof.yaml."""

    points: Annotated[dict[Id, PointDocument], Field(min_length=1)]
