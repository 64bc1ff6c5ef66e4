from pathlib import Path

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.opening import open_case
from engine.knowledge.casefile import CaseDocument, read_case
from engine.knowledge.reading import Source
from tests.conftest import ModelOf

CASES = Path(__file__).resolve().parents[2] / "kb" / "cases"
FILES = sorted(CASES.glob("*.yaml"))
MOST = 3
# Where the causes of the first cases stand, in the order in which the case names them.
PLACES = {
    "dead-set-lower-croft": (1,),
    "feeder-water-shore-hut": (1,),
    "low-power-top-pasture": (1,),
    "no-transmit-gate-house": (1,),
    "off-frequency-north-fold": (1,),
    "public-address-show-day": (1,),
    "squelch-shut-bothy": (1,),
    "strong-stations-mill-lane": (1,),
    "two-faults-east-barn": (1, 2),
    "weak-transmit-high-field": (1,),
}


def case_in(path: Path) -> tuple[CaseDocument, Source]:
    """Return a worked case."""
    return read_case(path.name, path.read_text(encoding="utf-8"))


def test_there_are_enough_cases() -> None:
    """From easy ones to nasty ones."""
    assert len(FILES) >= 6


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_case_is_whole(path: Path) -> None:
    """It says that it is invented, what it was, and why one could know."""
    document, _ = case_in(path)
    assert document.title
    assert "Invented" in document.story
    assert document.causes or "nothing is wrong" in document.reasoning.lower()
    assert len(document.reasoning) > 100


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_case_comes_out_right(path: Path, model_of: ModelOf) -> None:
    """Each cause it turned out to be is among the first three, and nothing clashes.

    One that is no fault of the set ends as that.
    """
    document, source = case_in(path)
    model = model_of(document.family)
    answer = step(model, open_case(model, document, source))
    order = [cause.id for cause in answer.causes if cause.kind != "event"]
    places = tuple(order.index(cause) + 1 for cause in document.causes)
    assert max(places, default=1) <= MOST, places
    assert places == PLACES.get(path.stem, places)
    assert bool(document.causes) != (answer.verdict.kind == "nothing-wrong")
    assert answer.clash == ()
