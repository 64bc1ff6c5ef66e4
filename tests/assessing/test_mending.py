"""Sets brought back to their shelf on the tiny knowledge."""

import pytest

from engine.assessing.at_work import Shop
from engine.assessing.drawing import drawn_set, one_cause
from engine.assessing.known_wrongly import Knowledge
from engine.assessing.manual import manual_of
from engine.assessing.mended import Mended
from engine.assessing.mending import MOST_REPAIRS
from engine.assessing.restoring import restored
from engine.assessing.scores import scores_of
from engine.assessing.trial import Plan
from engine.assessing.ways import WAY_TITLES, WAYS
from engine.diagnosis.case import full_kit

SETS = 30


def mended(frail: Knowledge, way: str, faults: str) -> list[Mended]:
    """Return what came of so many sets."""
    manual, plan = manual_of(frail.truth, frail.network), Plan(way, full_kit(frail.truth))
    sets = [drawn_set(frail.truth, frail.network, faults, f"1 {n}") for n in range(SETS)]
    return [restored(Shop(frail.tool, manual, plan), bench) for bench in sets]


def test_every_way_of_mending_has_a_title() -> None:
    """One sentence each."""
    assert WAYS.keys() == WAY_TITLES.keys()


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("faults", ["1", "2"])
def test_repairs_add_up(frail: Knowledge, way: str, faults: str) -> None:
    """What is gone was repaired and what was not there was needless: nothing else is a repair."""
    for one in mended(frail, way, faults):
        assert one.repairs == one.needless + len(one.there) - len(one.left)
        assert one.repairs <= MOST_REPAIRS
        assert set(one.left) <= set(one.there)
        assert one.is_content or one.left
        assert one.is_clean == (not set(one.left) - set(one.latent))


def test_measuring_spares_needless_repairs(frail: Knowledge) -> None:
    """Over thirty sets with one fault fewer parts are replaced in vain than by prior alone."""
    figures = {
        way: scores_of(mended(frail, way, "1")) for way in ("mend-by-verdict", "mend-by-prior")
    }
    by_verdict, by_prior = figures.values()
    assert by_verdict["needless_repairs"]["at"] < by_prior["needless_repairs"]["at"]
    assert by_verdict["content"]["at"] >= 0.8


def test_what_shows_nowhere_is_left_alone(right: Knowledge) -> None:
    """A set whose owner notices nothing never comes: it is neither checked nor repaired."""
    plan = Plan("mend-by-verdict", full_kit(right.truth))
    bench = one_cause(right.truth, right.network, "supply.flat-battery", "seven")
    fine = bench.put_right("supply.flat-battery")
    done = restored(Shop(right.tool, manual_of(right.truth, right.network), plan), fine)
    assert done == Mended((), (), is_noticed=False)
