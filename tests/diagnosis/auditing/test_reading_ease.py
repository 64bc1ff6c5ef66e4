import pytest

from engine.diagnosis.auditing.reading_ease import reading_ease, syllables

COUNTED_BY_EAR = """
the 1 set 1 dark 1 lamp 1 press 1 pressed 1 lifted 2 wire 1 table 2 little 2 battery 3 aerial 3
radio 3 station 2 stations 2 listening 3 channel 2 channels 2 receiver 3 transmit 2 microphone 3
loudspeaker 3 volume 2 squelch 1 button 2 voltage 2 usual 3 quiet 2 being 2 power 2 television 4
knocked 1 boxes 2 joints 1 handle 2 handles 2 handled 2 called 1 hole 1 holes 1 watches 2
measured 2 use 1 supply 2 solder 2 trimmer 2 always 2
"""


def test_syllables_are_counted_by_rule() -> None:
    """Each of the everyday words of the trade as it is heard."""
    words = COUNTED_BY_EAR.split()
    pairs = dict(zip(words[::2], map(int, words[1::2]), strict=True))
    assert {word: syllables(word) for word in pairs} == pairs


@pytest.mark.parametrize(
    ("text", "words", "sentences", "sounds"),
    [
        ("The cat sat on the mat.", 6, 1, 6),
        ("Is the set dark? Press the button.", 7, 2, 8),
        ("Listen: no station", 3, 2, 5),
        ("Set the meter to 20 V, then wait", 8, 1, 10),
    ],
)
def test_the_formula_of_1948(text: str, words: int, sentences: int, sounds: int) -> None:
    """206.835 less 1.015 for each word a sentence, less 84.6 for each syllable a word."""
    expected = 206.835 - 1.015 * words / sentences - 84.6 * sounds / words
    assert reading_ease(text) == pytest.approx(expected)


def test_nothing_is_easy_to_read() -> None:
    """No words, no trouble."""
    assert reading_ease("--") == 100.0
