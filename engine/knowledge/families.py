"""The shape of a family file: a kind of set, its blocks and their wiring."""

from typing import Annotated

from pydantic import Field

from engine.knowledge.document import Document, GlobalId, Id, Text
from engine.knowledge.setting import SetUp


class Placed(Document):
    """A block in a family: which file, and where it stands in the drawing."""

    at: tuple[Annotated[int, Field(ge=0)], Annotated[int, Field(ge=0)]]  # column, row


class Family(Document):
    """A kind of set: which blocks, how they are wired, which plan makes its frequencies."""

    title: Text
    about: Text
    source: Text
    recognise: Annotated[tuple[Text, ...], Field(min_length=1)]
    features: tuple[Id, ...] = ()  # what blocks ask for in `fitted-with`
    figures: dict[Id, Text] = Field(default_factory=dict)  # what stands for {name} in their texts
    channels: Id  # channel plan
    rules: Id  # limits
    plan: Id | None = None  # frequency plan
    oscillators: dict[Id, GlobalId] = Field(default_factory=dict)  # of the plan -> its frequency
    division: GlobalId | None = None  # the signal that says what is counted
    lock: GlobalId | None = None  # the signal that says whether the loop is in lock
    blocks: Annotated[dict[Id, Placed], Field(min_length=1)]
    wiring: dict[Id, dict[Id, str]]  # block -> need -> "maker.signal"
    set_up: SetUp = SetUp()  # what only the family knows of setting it up
