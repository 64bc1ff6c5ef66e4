"""kb/tables/repairs.yaml: what a repair takes, by kind of cause and by class of part."""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from engine.knowledge.document import Document, Id, Share, Text, refusal

Worth = Annotated[float, Field(ge=0, le=10_000)]  # minutes
Work = Annotated[float, Field(gt=0, le=10_000)]  # minutes


class Duty(Document):
    """Something that takes, or is worth, so many minutes."""

    minutes: Worth
    source: Text


class Getting(Document):
    """How a part is come by, and what that is worth in minutes of work, its price included."""

    title: Text
    worth_min: Worth
    source: Text


class Repair(Document):
    """What putting a cause right takes; `does_it`: the chance that the trouble is gone then."""

    minutes: Work
    does_it: Share
    getting: Id
    lid: Literal["on", "off"]
    source: Text


class RepairFigures(Document):
    """What is otherwise than in the figures of the kind; at least one figure."""

    minutes: Work | None = None
    does_it: Share | None = None
    getting: Id | None = None
    lid: Literal["on", "off"] | None = None
    source: Text

    @model_validator(mode="after")
    def says_something(self) -> "RepairFigures":
        """Refuse a row without a figure."""
        if not self.figures():
            remedy = "Write what differs from the figures of the kind, or take it out."
            raise refusal("no figure", "'minutes', 'does-it', 'getting' or 'lid'", remedy)
        return self

    def figures(self) -> dict[str, object]:
        """Return the figures that stand here, by field."""
        return self.model_dump(exclude={"source"}, exclude_none=True)


class Kinds(Document):
    """One row for each kind of cause that can be put right."""

    fault: Repair
    adjustment: Repair
    modification: Repair
    outside: Repair
    control: Repair
    unlisted: Repair


class Repairs(Document):
    """The table. `hand_over` is what is paid where no repair is left, or none is worth it."""

    prove: Duty
    hand_over: Duty
    getting: Annotated[dict[Id, Getting], Field(min_length=1)]
    kinds: Kinds
    parts: dict[Id, RepairFigures] = Field(default_factory=dict)

    def of(self, kind: str, part: str | None = None, own: RepairFigures | None = None) -> Repair:
        """Return the figures of a cause: its own before those of its part, and of its kind."""
        row: Repair = getattr(self.kinds, kind)
        for more in (self.parts.get(part or ""), own):
            if more is not None:
                row = row.model_copy(update=more.figures())
        return row
