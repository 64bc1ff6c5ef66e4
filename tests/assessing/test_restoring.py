"""Sets of a real kind repaired, set up and proved by following the tool."""

from dataclasses import replace

import pytest

from engine.assessing.adjustments import Adjustable
from engine.assessing.at_work import Shop, Work, latent
from engine.assessing.drawing import one_cause
from engine.assessing.faulty_set import FaultySet, faulty_set
from engine.assessing.known_wrongly import Knowledge
from engine.assessing.manual import Manual, manual_of
from engine.assessing.mended import Mended, Minutes
from engine.assessing.mending_scores import mending_scores
from engine.assessing.proof_readings import proved
from engine.assessing.restoring import restored
from engine.assessing.setting_up import set_up, upset, with_stuck
from engine.assessing.trial import Plan
from engine.diagnosis.case import Case, Repair, full_kit, repaired
from engine.proving.leading_back import as_finding, set_by

IMPEDANCE = "loudspeaker.external-impedance"
CORES, INPUT = "receive-front-end.front-cores", "receive-front-end.input-coil"
BROKEN = "receive-front-end.front-core-broken"
TRAP = "low-pass-filter.harmonic-trap"
HIGH, POWER = "power-setting.high-power-preset", "aerial-switching.power-at-socket"


@pytest.fixture(scope="session")
def manual(workshop: Knowledge) -> Manual:
    """Return what stands on paper about the three-crystal set."""
    return manual_of(workshop.truth, workshop.network)


@pytest.fixture(scope="session")
def shop(workshop: Knowledge, manual: Manual) -> Shop:
    """Return a bench with everything, where one follows the verdict."""
    plan = Plan("mend-by-verdict", full_kit(workshop.tool))
    return Shop(workshop.tool, manual, plan, workshop.proof)


def work_on(shop: Shop, bench: FaultySet, *repairs: str) -> Work:
    """Return work on a set after repairs, nothing found yet."""
    case = Case(shop.model.family.id, shop.plan.kit)
    for cause in repairs:
        case = repaired(case, Repair(cause, "replaced"))
    symptoms = tuple(shop.model.symptoms)
    return Work(shop, Adjustable(bench), case, Mended(bench.there, bench.there), symptoms)


@pytest.mark.parametrize("way", ["mend-by-verdict", "mend-by-prior"])
def test_a_set_is_repaired_and_proved_whichever_way(
    shop: Shop, workshop: Knowledge, way: str
) -> None:
    """What came of it adds up, and nobody who measures repairs this one in vain."""
    bench = one_cause(workshop.truth, workshop.network, IMPEDANCE, "three")
    done = restored(replace(shop, plan=replace(shop.plan, policy=way)), bench)
    assert done.there == ((IMPEDANCE, "too-high"),)
    assert (done.checks > 0) == (way == "mend-by-verdict")
    assert (done.needless == 0) == (way == "mend-by-verdict")
    assert done.repairs - done.needless == (IMPEDANCE not in {cause for cause, _ in done.left})
    assert done.proofs > 0
    assert done.points == (8, 11)
    assert done.minutes.proving > 0.0
    if way == "mend-by-verdict":
        assert (done.is_restored, done.left, done.repairs, done.visits) == (True, (), 1, 0)


def test_what_a_repair_moved_is_set_right_by_the_sheet(shop: Shop, workshop: Knowledge) -> None:
    """A new core leaves its neighbours off; the sheet finds them, and nothing else is off after."""
    bench = faulty_set(workshop.truth, workshop.network, {}, "five")
    work = upset(work_on(shop, bench, BROKEN), (BROKEN,))
    assert {cause for cause, _ in work.bench.there} >= {CORES}
    assert not work.is_content
    work, stuck = set_up(work, is_last=False)
    assert (stuck, work.bench.there, work.is_content) == ((), (), True)
    assert {visit.adjustment for visit in work.visits} >= {CORES, INPUT}
    assert work.done.minutes.setting_up > 0.0


def test_what_will_not_come_right_leads_back(shop: Shop, workshop: Knowledge) -> None:
    """With the driver dead no power can be set; that it was tried is evidence against the rest."""
    bench = one_cause(workshop.truth, workshop.network, "driver.driver-transistor", "one")
    work = replace(work_on(shop, bench), to_set=(HIGH,))
    work, (stuck,) = set_up(work, is_last=False)
    assert (stuck.step.id, stuck.state, work.done.stuck) == (HIGH, "stuck", 1)
    after = with_stuck(work, (stuck,))
    assert [stretch.repair for stretch in after.case.past] == [Repair(HIGH, "adjusted")]
    assert [finding.check for finding in after.case.findings] == [POWER]
    assert not after.is_content
    assert set(after.watched) - set(work.watched) == {POWER}


def test_a_point_that_fails_leads_back_to_the_check_that_measures_the_same(
    shop: Shop, workshop: Knowledge
) -> None:
    """With the harmonic trap off the second harmonic is far beyond the spurious limit."""
    assert workshop.proof is not None
    fine = faulty_set(workshop.truth, workshop.network, {}, "two")
    off = one_cause(workshop.truth, workshop.network, TRAP, "two")
    case = Case(shop.model.family.id, shop.plan.kit)
    rows = {
        name: {row.point.id: row for row in made.proved.rows}
        for name, bench in (("fine", fine), ("off", off))
        for made in [proved(shop.model, workshop.proof, bench, case)]
    }
    harmonic = "second-harmonic"
    assert [rows[name][harmonic].verdict for name in rows] == ["pass", "fail"]
    found = as_finding(shop.model, rows["off"][harmonic])
    assert found is not None
    assert found[0] == "low-pass-filter.second-harmonic"
    assert TRAP in set_by(shop.model, rows["off"][harmonic].point)


def test_what_no_signal_shows_is_latent(workshop: Knowledge) -> None:
    """Two ways of having no supply hide each other: one is latent, and alone neither is."""
    wrong = {"supply.feed-fuse-blown": 1, "supply.feed-not-on": 1}
    both = faulty_set(workshop.truth, workshop.network, wrong, "four")
    assert both.there == (("supply.feed-not-on", "present"), ("supply.feed-fuse-blown", "present"))
    assert [cause for cause, _ in latent(both)] == ["supply.feed-not-on"]
    alone = both.put_right("supply.feed-not-on")
    assert latent(alone) == ()
    assert latent(alone.put_right("supply.feed-fuse-blown")) == ()


def test_a_set_whose_owner_notices_nothing_never_comes(shop: Shop, workshop: Knowledge) -> None:
    """It is not counted among those that were mended."""
    fine = restored(shop, faulty_set(workshop.truth, workshop.network, {}, "six"))
    assert not fine.is_noticed
    clean = Mended((("a", "x"),), (), is_content=True, repairs=2, needless=1, proof="not-shown")
    dirty = replace(clean, left=(("a", "x"),), proof="fails", minutes=Minutes(1.0, 2.0, 3.0, 4.0))
    told = mending_scores([fine, clean, replace(clean, proof="poor"), dirty])
    shares = {name: round(told[name]["at"], 3) for name in ("clean", "restored", "proved")}
    assert shares == {"clean": 0.667, "restored": 0.667, "proved": 0.333}
    assert (told["sets"], told["unnoticed"]) == (3, 1)
    assert told["proofs"] == {"right": 0, "poor": 1, "not-shown": 1, "fails": 1, "none": 0}
    assert told["minutes"]["at"] == pytest.approx(10.0 / 3.0)
