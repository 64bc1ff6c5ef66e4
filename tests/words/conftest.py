import pytest

from engine.words.lexicon import Concept, Lexicon, lexicon
from engine.words.phrases import Index, Question, index

CONCEPTS = {
    "hear": Concept("exchange", ("hear", "heard")),
    "tell": Concept("report", ("they say",)),
    "people": Concept("others", ("they", "others", "mate")),
    "sent": Concept("thing", ("transmit", "my voice")),
    "received": Concept("thing", ("reception",)),
    "voice": Concept("thing", ("voice", "my voice")),
    "lamp": Concept("thing", ("lamp", "lights")),
    "fine": Concept("fine", ("fine", "works", "work"), "bad"),
    "bad": Concept("wrong", ("bad", "wrong"), "fine"),
    "absent": Concept("wrong", ("gone",), "fine"),
    "weak": Concept("wrong", ("weak", "faint")),
    "hum": Concept("wrong", ("hum", "buzzing noise")),
}
QUESTIONS = (
    Question("hears", "no", {"yes": ("I hear nobody",), "no": ("reception is fine",)}),
    Question("heard", "no", {"yes": ("nobody hears me",), "no": ("they hear me",)}),
    Question("hums", "no", {"yes": ("hum on reception", "buzzing noise")}),
    Question("lamp", "bright", {"bright": ("the lamp works",), "dark": ("no lamp", "lamp gone")}),
)


@pytest.fixture(scope="session")
def few() -> Lexicon:
    """Return a handful of concepts."""
    return lexicon(CONCEPTS)


@pytest.fixture(scope="session")
def filed(few: Lexicon) -> Index:
    """Return a handful of phrases for four questions."""
    return index(QUESTIONS, few)
