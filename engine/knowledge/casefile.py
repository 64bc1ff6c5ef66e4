"""A case as a file: which set, which kit, what was found. YAML or JSON."""

from typing import Annotated, Literal

import yaml
from pydantic import Field

from engine.knowledge.document import Document, Id, Text
from engine.knowledge.filed import Answer, read_filed
from engine.knowledge.reading import Source


class KitDocument(Document):
    """What can be used. `everything` stands for every instrument the knowledge knows."""

    instruments: tuple[Id, ...] | Literal["everything"] = "everything"
    lid: Literal["on", "off"] = "off"
    counter_ppm: Annotated[float, Field(gt=0, le=1000)] | None = None  # tolerance of its timebase


class FindingDocument(Document):
    """One check and what came out: an outcome, a reading with its unit, or `cannot-check`."""

    check: Annotated[str, Field(pattern=r"^[a-z0-9-]+\.[a-z0-9-]+(@[0-9]+)?$")]
    answer: Answer
    note: str = ""


class RepairDocument(Document):
    """A cause that was put right once the first `after` findings had been made."""

    cause: Annotated[str, Field(pattern=r"^[a-z0-9-]+\.[a-z0-9-]+$")]
    how: Literal["replaced", "adjusted", "cleaned", "put-back"]
    after: Annotated[int, Field(ge=0)]


class VisitDocument(Document):
    """An adjustment that was looked at: what was read before and after it was turned.

    Several things wanted have a list each, in their order; `-` where nothing was read.
    `findings-before` is how many findings of the file had been made; left out, all of them.
    """

    adjustment: Annotated[str, Field(pattern=r"^[a-z0-9-]+\.[a-z0-9-]+$")]
    before: Answer | tuple[Answer, ...] | None = None
    after: Answer | tuple[Answer, ...] | None = None
    gave_up: bool = False  # turned as far as it goes, and what is wanted was not reached
    findings_before: Annotated[int, Field(ge=0)] | None = None
    note: str = ""


class CaseDocument(Document):
    """A case file; `causes` and `reasoning` belong to cases that are worked out."""

    format: Literal[1]
    family: Id
    title: Text | None = None
    story: str = ""
    kit: KitDocument = KitDocument()
    findings: tuple[FindingDocument, ...] = ()
    repairs: tuple[RepairDocument, ...] = ()  # in order of time
    set_up: tuple[VisitDocument, ...] = ()  # in order of time
    causes: tuple[str, ...] = ()  # worked cases: what it turned out to be
    reasoning: str = ""


def read_case(file: str, text: str) -> tuple[CaseDocument, Source]:
    """Return a case file as a model, and where its lines are.

    Raises:
        CaseError: with all problems at once.
    """
    return read_filed(file, text, CaseDocument)


def write_case(document: CaseDocument) -> str:
    """Return a case as YAML, without what was left at its default."""
    data = document.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    return yaml.safe_dump({"format": 1, **data}, sort_keys=False, allow_unicode=True)
