"""Counted work, which no other load on the machine changes: a guard against growing tables."""

import json
from pathlib import Path

from engine.assessing.speed import exponent, packed_bytes, size_speed
from engine.assessing.synthetic import synthetic
from engine.diagnosis.making.building import build_network
from engine.diagnosis.making.compiling import QUICK
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model, load_model
from engine.inference.junction import junction_tree
from engine.knowledge.library import read_library

ROOT = Path(__file__).parents[2]
STORED = ROOT / "tests" / "data" / "work.json"
MORE = 1.25  # times the stored count that still passes: knowledge grows


def counted() -> dict[str, int]:
    """Return the table entries that a pass visits, of three kinds of set and a made-up one."""
    library = read_library(ROOT / "kb")
    nets = {
        name: build_network(library.of(name), library.families[name])
        for name in ("crystal-handheld", "vhf-fm-mobile", "loop-crystal-multimode")
    }
    nets["made-up of 1000 causes"] = synthetic(1000)
    return {name: junction_tree(net, QUICK.tries, QUICK.keep).work for name, net in nets.items()}


def test_a_pass_visits_no_more_entries_than_it_did() -> None:
    """A quarter more fails: a wiring that ties far things together, or a worse order."""
    stored, now = json.loads(STORED.read_text(encoding="utf-8")), counted()
    assert now.keys() == stored.keys()
    grown = {name: (stored[name], work) for name, work in now.items() if work > MORE * stored[name]}
    assert not grown, (
        f"found more table entries a pass than stored: {grown}. If that is meant, say why in the "
        f"commit and write the new counts into tests/data/work.json: {json.dumps(now)}"
    )


def test_counted_work_grows_with_the_causes_and_no_faster() -> None:
    """Over three decades the power is at most 1.1."""
    sizes = [10, 100, 1000, 10_000]
    work = [junction_tree(synthetic(size)).work for size in sizes]
    assert exponent(sizes, work) <= 1.1


def test_a_made_up_set_has_about_as_many_causes_as_asked_for() -> None:
    """Eight a stage, and a rail for each chain."""
    names = list(synthetic(400).nodes)
    assert sum(name.startswith("cause-") for name in names) == 400
    assert sum(name.startswith("rail-") for name in names) == 2


def test_figures_of_a_size_are_told() -> None:
    """Work is counted, times are above nothing."""
    row = size_speed(100)
    assert (row.causes, row.work) == (100, junction_tree(synthetic(100)).work)
    assert min(row.compile_ms, row.pass_ms) > 0.0


def test_the_same_set_packs_into_the_same_bytes(beacon: SetModel) -> None:
    """Packing puts no time of day in."""
    assert packed_bytes(beacon) == packed_bytes(load_model(dump_model(beacon)))
