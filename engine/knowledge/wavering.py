"""kb/tables/coming-and-going.yaml: what makes a trouble come and go, and how that is noticed."""

from typing import Annotated

from pydantic import Field

from engine.knowledge.document import Document, Id, Text
from engine.knowledge.kinds import SET
from engine.knowledge.schema import Block, Cause, Check, Signal
from engine.knowledge.tables import Parts

STEADY, CHANGES = "steady", "changes"
WHOLE_SET = SET


class Occasion(Document):
    """Something that a trouble changes with, such as a knock."""

    title: Text
    otherwise: Annotated[float, Field(ge=1e-6, lt=1)]  # chance to be told so with no such cause
    source: Text


class ComingAndGoing(Document):
    """Occasions, and the checks that look at them; each in the states steady and changes."""

    occasions: Annotated[dict[Id, Occasion], Field(min_length=1)]
    checks: dict[Id, Check]


def wavering_block(table: ComingAndGoing) -> Block:
    """Return the table as a block that makes a signal for each occasion, and has no causes."""
    makes = {
        name: Signal(title=each.title, carries="quality", states=(STEADY, CHANGES))
        for name, each in table.occasions.items()
    }
    return Block.model_construct(
        title="The set as a whole",
        about="What changes the trouble, whatever its cause.",
        needs={},
        makes=makes,
        causes={},
        checks=table.checks,
    )


def chances(cause: Cause, parts: Parts, occasion: str) -> tuple[float, ...]:
    """Return the chance that a cause changes with an occasion, in each of its states.

    The author's own word goes before that of the part class; what was not said is 0.
    """
    by_part = parts.classes[cause.part].comes_and_goes if cause.part else {}
    told = cause.comes_and_goes if cause.comes_and_goes is not None else by_part
    return (0.0, *[told.get(occasion, 0.0)] * max(len(cause.ways), 1))
