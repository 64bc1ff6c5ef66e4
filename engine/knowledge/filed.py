"""What all files about one set have in common: read whole or not at all, answers as typed."""

from typing import TypeVar

from pydantic import BaseModel

from engine.errors import CaseError
from engine.knowledge.reading import Source, parse, validate

Filed = TypeVar("Filed", bound=BaseModel)
Answer = str | float | int | bool


def read_filed(file: str, text: str, kind: type[Filed]) -> tuple[Filed, Source]:
    """Return a file as a model of its kind, and where its lines are.

    Raises:
        CaseError: with all problems at once.
    """
    source, problems = parse(file, text)
    if source is None:
        raise CaseError(problems)
    document, problems = validate(source, kind)
    if document is None:
        raise CaseError(problems)
    return document, source


def answer_words(answer: Answer) -> str:
    """Return an answer as it would be typed; JSON's true and false are yes and no."""
    if isinstance(answer, bool):
        return "yes" if answer else "no"
    return str(answer)
