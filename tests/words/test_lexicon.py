from engine.words.lexicon import PLAIN, Lexicon


def test_a_run_of_words_may_stand_for_two_concepts(few: Lexicon) -> None:
    """Endings do not matter."""
    assert few.runs["my", "voic"] == ("sent", "voice")
    assert few.runs["light",] == ("lamp",)
    assert few.longest == 2


def test_a_word_of_no_concept_is_plain(few: Lexicon) -> None:
    """It has no opposite either."""
    assert (few.kind("lamp"), few.kind("tractor")) == ("thing", PLAIN)
    assert (few.opposite("fine"), few.opposite("weak"), few.opposite("tractor")) == ("bad", "", "")
