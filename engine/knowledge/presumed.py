"""When a check makes sense, and when it is safe."""

from typing import Annotated

from pydantic import Field

from engine.knowledge.document import Document, Id

States = Annotated[tuple[Id, ...], Field(min_length=1)]


class Presumed(Document):
    """What a check takes for granted: signals its block needs or makes, and their states.

    It is proposed only while every signal of `presumes` may well be in one of its states, and
    every signal of `safe-while` surely is. Whoever has made it can always enter it.
    """

    presumes: dict[Id, States] = Field(default_factory=dict)  # else the question is absurd
    safe_while: dict[Id, States] = Field(default_factory=dict)  # else the step may do harm
