import pytest

from engine.words.clauses import clauses
from engine.words.lexicon import Lexicon
from engine.words.meaning import meaning


def concepts(message: str, few: Lexicon) -> set[str]:
    """Return the concepts of a message of one clause, without pairs."""
    (clause,) = clauses(message)
    found = meaning(clause, few, {stem for run in few.runs for stem in run})
    return {name for name in found if ":" not in name or name.startswith("no:")}


@pytest.mark.parametrize(
    ("message", "expected"),
    [
        ("nobody hears me", {"sent", "absent"}),
        ("I hear nobody", {"received", "absent"}),
        ("no one can hear my voice", {"sent", "voice", "absent"}),
        ("they hear weak", {"sent", "weak"}),
        ("I am heard", {"sent"}),
        ("I can't hear them", {"received", "absent"}),
        ("they say it is weak", {"sent", "weak"}),
        ("hears fine", {"received", "fine"}),
    ],
)
def test_who_hears_whom(message: str, expected: set[str], few: Lexicon) -> None:
    """The subject and the object of hearing tell which way it goes."""
    assert concepts(message, few) == expected


@pytest.mark.parametrize(
    ("message", "expected"),
    [
        ("no hum", {"no:hum"}),
        ("no hum or faint lamp", {"no:hum", "no:weak", "lamp"}),
        ("it doesn't work", {"bad"}),
        ("dosnt work", {"bad"}),
        ("nothing wrong with reception", {"fine", "received"}),
        ("not fine", {"bad"}),
        ("no lamp", {"lamp", "absent"}),
        ("without any lamp", {"lamp", "absent"}),
        ("never not weak", {"absent", "no:weak"}),
        ("barely a lamp", {"weak", "lamp"}),
    ],
)
def test_what_is_denied(message: str, expected: set[str], few: Lexicon) -> None:
    """A good state turns into its opposite, a bad one is denied, a thing is absent."""
    assert concepts(message, few) == expected


def test_a_negator_reaches_five_words(few: Lexicon) -> None:
    """What is further off is not denied."""
    assert concepts("no cow dog hen pig bull hum", few) >= {"absent", "hum"}
    assert concepts("no cow dog hen pig hum", few) >= {"no:hum"}


def test_things_and_states_are_paired(few: Lexicon) -> None:
    """With the places of both in the message."""
    (clause,) = clauses("no hum on reception")
    assert meaning(clause, few, ()) == {
        "no:hum": frozenset({(0, 6)}),
        "received": frozenset({(10, 19)}),
        "received:no:hum": frozenset({(0, 6), (10, 19)}),
    }


def test_slips_are_understood(few: Lexicon) -> None:
    """A word that nearly is a known one is taken for it; others stay as they are."""
    assert concepts("recepton weak", few) == {"received", "weak"}
    assert concepts("tractor weak", few) == {"tractor", "weak"}
