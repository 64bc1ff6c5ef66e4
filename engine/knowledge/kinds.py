"""kb/tables/kinds.yaml: how common each family is, and the looks that tell them apart."""

from typing import Annotated

from pydantic import Field

from engine.knowledge.document import Document, Id, Text
from engine.knowledge.schema import Block, Check, Signal

SET = "set"  # the block that these checks are of
KIND = "kind"  # what they look at; its states are the families


class Kinds(Document):
    """Families with their shares of what comes in (of any sum), and checks that look at `kind`."""

    shares: Annotated[dict[Id, Annotated[float, Field(gt=0)]], Field(min_length=1)]
    source: Text
    checks: dict[Id, Check]


def kind_block(kinds: Kinds) -> Block:
    """Return the table as a block with one signal, the kind, and no causes."""
    states = tuple(kinds.shares)
    signal = Signal(title="Which kind of set it is", carries="quality", states=states)
    return Block.model_construct(
        title="Which set it is",
        about="What tells the kinds of set apart, from outside and with the lid off.",
        needs={},
        makes={KIND: signal},
        causes={},
        checks=kinds.checks,
    )
