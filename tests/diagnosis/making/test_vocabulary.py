from pathlib import Path

from engine.diagnosis.making.vocabulary import concepts
from engine.knowledge.library import load, read_texts
from engine.words.lexicon import Concept

SMALL = Path(__file__).parents[2] / "knowledge" / "small"
WORDS = """\
concepts:
  fine: {kind: fine, words: [fine, all right], opposite: bad}
  bad: {kind: wrong, words: [bad]}
"""


def test_concepts_are_taken_from_the_table() -> None:
    """As they stand there; an opposite that is not given is an empty text."""
    texts = read_texts(SMALL)
    assert concepts(load(texts | {"tables/words.yaml": WORDS})) == {
        "fine": Concept("fine", ("fine", "all right"), "bad"),
        "bad": Concept("wrong", ("bad",), ""),
    }
    assert concepts(load(texts)) == {}
