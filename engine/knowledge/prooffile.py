"""A proof as a file: which set, under which rules, with which instruments, what was read."""

from typing import Annotated, Literal

from pydantic import Field

from engine.knowledge.document import Document, Id, Text
from engine.knowledge.filed import Answer, read_filed
from engine.knowledge.reading import Source

PointId = Annotated[str, Field(pattern=r"^[a-z0-9-]+(@[0-9]+)?$")]


class ReadDocument(Document):
    """One point: what was read after the work, and before it where that was written down."""

    point: PointId
    reads: Answer | None = None
    before: Answer | None = None
    measured_with: Id | None = None  # the instrument, where it is not the usual one
    note: str = ""


class ProofDocument(Document):
    """A proof file. `instruments` says how good each is, such as `5 %` or `2 ppm + 1 Hz`."""

    format: Literal[1]
    family: Id
    rules: Id | None = None  # those of the family where nothing is written
    title: Text | None = None
    instruments: dict[Id, Text] = Field(default_factory=dict)
    readings: tuple[ReadDocument, ...] = ()


def read_proof(file: str, text: str) -> tuple[ProofDocument, Source]:
    """Return a proof file as a model, and where its lines are.

    Raises:
        CaseError: with all problems at once.
    """
    return read_filed(file, text, ProofDocument)
