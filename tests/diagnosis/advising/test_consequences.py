"""What one way of a cause does to a set, read off its tree."""

from pathlib import Path

import pytest

from engine.diagnosis.advising.consequences import put_out, risen
from engine.diagnosis.making.compiling import QUICK, compile_family
from engine.diagnosis.model import SetModel
from engine.knowledge.library import read_library

SMALL = Path(__file__).parents[2] / "knowledge" / "small"


@pytest.fixture(scope="module")
def beacon() -> SetModel:
    """Return the tiny set."""
    return compile_family(read_library(SMALL), "beacon", QUICK)


def test_each_way_puts_out_what_the_knowledge_says(beacon: SetModel) -> None:
    """Shorted takes the power away, open leaves a little; the drive is left alone."""
    assert put_out(beacon, "sender.output-transistor", 1) == (("sender.output", "absent"),)
    assert put_out(beacon, "sender.output-transistor", 2) == (("sender.output", "low"),)


def test_a_cause_far_up_puts_out_all_that_follows(beacon: SetModel) -> None:
    """Without a rail there is neither drive nor power."""
    harmed = dict(put_out(beacon, "supply.fuse-joint", 1))
    assert harmed["supply.rail"] == "absent"
    assert harmed["sender.output"] == "absent"


def test_what_shows_is_told_with_its_chances(beacon: SetModel) -> None:
    """Nothing at all is heard of a set whose output transistor is shorted."""
    (first, *_) = risen(beacon, "sender.output-transistor", 1)
    assert (first.symptom, first.outcome) == ("sender.weak", "nothing")
    assert first.before < 0.2 < 0.8 < first.after


def test_telling_of_the_work_goes_forward() -> None:
    """Whoever waits hears what is being done, with a share that only grows."""
    heard: list[tuple[str, float]] = []
    compile_family(read_library(SMALL), "beacon", QUICK, lambda *told: heard.append(told))
    shares = [share for _, share in heard]
    assert len(heard) >= 4
    assert shares == sorted(shares)
    assert 0.0 <= shares[0] < shares[-1] < 1.0


def test_blocks_know_the_signals_they_are_fed(beacon: SetModel) -> None:
    """As the family wires them."""
    assert beacon.takes == {"sender": ("supply.rail",)}
