"""Words of the trade, each in a sentence or two for somebody who has never opened a radio."""

import re
from typing import Annotated

from pydantic import Field, model_validator

from engine.knowledge.document import Document, Id, refusal

LONGEST = 140  # characters of an explanation; more is not read on a telephone
Word = Annotated[str, Field(min_length=2)]


class TermDocument(Document):
    """One idea: the words for it, the usual one first, and what it is."""

    words: Annotated[tuple[Word, ...], Field(min_length=1)]
    means: Annotated[str, Field(min_length=10, max_length=LONGEST)]

    @model_validator(mode="after")
    def _is_short(self) -> "TermDocument":
        """Refuse more than two sentences, and one that does not end."""
        count = len(re.findall(r"[.!?](?= |$)", self.means))
        if not 1 <= count <= 2 or self.means[-1] not in ".!?":
            raise refusal(
                f"{count} sentences", "one or two, with a stop at the end", "Say it shorter."
            )
        return self


class Glossary(Document):
    """kb/tables/glossary.yaml."""

    terms: Annotated[dict[Id, TermDocument], Field(min_length=1)]

    @model_validator(mode="after")
    def _says_each_word_once(self) -> "Glossary":
        owners: dict[str, str] = {}
        for name, term in self.terms.items():
            for word in term.words:
                other = owners.setdefault(word.lower(), name)
                if other != name:
                    raise refusal(
                        f"'{word}' under '{other}' and '{name}'",
                        "each word under one term",
                        f"Leave it out of '{other}' or of '{name}'.",
                    )
        return self
