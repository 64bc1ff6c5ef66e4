from dataclasses import replace

from engine.diagnosis.auditing.owners_words import (
    TradeWords,
    hard_texts,
    owners_texts,
    trade_words,
)
from engine.knowledge.glossary import Glossary, TermDocument
from tests.diagnosis.auditing.bad_examples import HARD, TRADE_WORDS
from tests.diagnosis.conftest import small_library


def test_trade_words_are_named_unless_explained() -> None:
    """The bead explains the zener; plural and capitals are known all the same."""
    assert list(trade_words(small_library(TRADE_WORDS))) == [
        TradeWords("supply.feel", "plain", ("varactors", "rf", "choke"))
    ]
    assert list(trade_words(small_library())) == []


def test_a_printed_word_is_known_where_the_glossary_explains_it() -> None:
    """Sideband stands on the mode switch; without a glossary it is a trade word like any other."""
    bare = small_library(("blocks/past.yaml", "Has the set", "On sideband, has the set"))
    assert list(trade_words(bare)) == [TradeWords("past.fell", "asks", ("sideband",))]
    term = TermDocument(
        words=("sideband",), means="A way of sending voice in half the width of AM."
    )
    explained = replace(bare, glossary=Glossary(terms={"sideband": term}))
    assert list(trade_words(explained)) == []


def test_hard_texts_are_named_and_short_ones_left_alone() -> None:
    """Long words in a long sentence are far below the floor; four words are no measure."""
    assert hard_texts(small_library()) == ()
    (one,) = hard_texts(small_library(HARD))
    assert (one.check, one.field) == ("supply.feel", "plain")
    assert one.ease < 0


def test_an_owner_reads_what_is_plain_and_what_he_is_asked() -> None:
    """With the answers he may choose from."""
    assert list(owners_texts(small_library())) == [
        ("past.fell", "asks", "Has the set ever been dropped?"),
        (
            "sender.weak",
            "asks",
            "Do others hear you weakly? As loud as ever. Faint. Nothing at all.",
        ),
        ("supply.dark", "asks", "Is the set dark and silent?"),
    ]
