"""What owners say of their own accord: phrases for a symptom, and words that mean the same."""

from typing import Annotated, Literal

from pydantic import Field

from engine.knowledge.document import Document, Id, Text

Phrases = Annotated[tuple[Text, ...], Field(min_length=1)]
Word = Annotated[str, Field(min_length=2)]  # or several, with spaces between
ConceptKind = Literal["thing", "fine", "wrong", "exchange", "report", "others"]


class Told(Document):
    """What an owner would say who is not asked, by the answer that it stands for.

    Phrases under `no` deny the symptom. A phrase is held against a message by its concepts
    (kb/tables/words.yaml), so that it need not be written in every wording.
    """

    said: dict[Id, Phrases] = Field(default_factory=dict)  # symptoms only


class ConceptDocument(Document):
    """One idea and the words for it, as they are said in everyday English.

    `kind` is what grammar makes of it: a thing (denied, it is absent), a fine state (denied, it is
    its opposite), a wrong state (denied, that is a denial), an exchange such as hearing (who hears
    tells whether reception or transmission is meant), a report by others, or people.
    """

    kind: ConceptKind
    words: Annotated[tuple[Word, ...], Field(min_length=1)]
    opposite: Id | None = None  # the concept that denying this state means


class Words(Document):
    """kb/tables/words.yaml."""

    concepts: Annotated[dict[Id, ConceptDocument], Field(min_length=1)]
