from pathlib import Path

import pytest

from engine.diagnosis.advice import step
from engine.diagnosis.model import SetModel
from engine.diagnosis.opening import open_case
from engine.knowledge.casefile import CaseDocument, read_case
from engine.knowledge.reading import Source

CASES = Path(__file__).resolve().parents[2] / "kb" / "cases"
FILES = sorted(CASES.glob("*.yaml"))
# Where the causes of a case stand among all causes, in the order in which the case names them.
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
    assert document.causes
    assert document.reasoning


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_case_comes_out_right(path: Path, model: SetModel) -> None:
    """Each cause it turned out to be stands at its stored place, and nothing clashes."""
    document, source = case_in(path)
    answer = step(model, open_case(model, document, source))
    order = [cause.id for cause in answer.causes]
    assert tuple(order.index(cause) + 1 for cause in document.causes) == PLACES[path.stem]
    assert answer.clash == ()
