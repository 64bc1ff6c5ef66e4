"""The words that mean the same, from knowledge to what the browser loads."""

from engine.diagnosis.glossary import Term, Terms
from engine.knowledge.library import Library
from engine.words.lexicon import Concept


def concepts(library: Library) -> dict[str, Concept]:
    """Return the shared concepts of a library by name; none when it has no table of words."""
    table = library.words.concepts if library.words else {}
    return {
        name: Concept(concept.kind, concept.words, concept.opposite or "")
        for name, concept in table.items()
    }


def terms_of(library: Library) -> Terms:
    """Return the glossary of a library; an empty one when it has none."""
    table = library.glossary.terms if library.glossary else {}
    return Terms(tuple(Term(name, each.words, each.means) for name, each in table.items()))
