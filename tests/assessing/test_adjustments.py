"""Adjustments of a simulated set: moved by repairs and by each other, and set right."""

import pytest

from engine.assessing.adjustments import OUT, Adjustable
from engine.assessing.faulty_set import faulty_set
from engine.assessing.known_wrongly import Knowledge
from engine.diagnosis.entry import read_answer

CORES, INPUT = "receive-front-end.front-cores", "receive-front-end.input-coil"
BROKEN = "receive-front-end.front-core-broken"
TRANSMIT, POWER = "transmit-crystal-oscillator.tx-trimmer", "power-setting.low-power-watts"
LOW = "power-setting.low-power-preset"
ERROR = "operating.transmit-error@20"


@pytest.fixture
def adjustable(workshop: Knowledge) -> Adjustable:
    """Return a three-crystal set with nothing wrong."""
    return Adjustable(faulty_set(workshop.truth, workshop.network, {}, "seven"))


def test_a_repair_moves_what_the_knowledge_says(adjustable: Adjustable) -> None:
    """Each by the usual error at most; what is off by more than a tolerance is there."""
    text = adjustable.bench.model.setting_up
    assert text is not None
    for cause, moved in text.upsets.items():
        now = adjustable.upset_by(cause)
        assert set(now.errors) == set(moved)
        assert all(abs(error) <= text.usual_error for error in now.errors.values())
        out = {name for name, error in now.errors.items() if abs(error) > OUT}
        assert {name for name, _ in now.bench.there} == out


def test_a_pair_settles_as_worked_by_hand(adjustable: Adjustable) -> None:
    """Shares 0.3 and 0.2: 10 and 10 tolerances off become 13, then 2.6, then 0.78, which holds."""
    text = adjustable.bench.model.setting_up
    assert text is not None
    assert {(a, b): s for a, b, s in text.pairs} == {(CORES, INPUT): 0.3, (INPUT, CORES): 0.2}
    states = {CORES: 1, INPUT: 1}
    now = Adjustable(adjustable.bench.turned(states), {CORES: 10.0, INPUT: 10.0})
    told = []
    for name in (CORES, INPUT, CORES):
        now = now.set_right(name)
        told.append((round(now.error(CORES), 9), round(now.error(INPUT), 9)))
    assert told == [(0.0, 13.0), (2.6, 0.0), (0.0, 0.78)]
    assert not {CORES, INPUT} & {name for name, _ in now.bench.there}


def test_what_stands_is_moved_by_nothing(adjustable: Adjustable) -> None:
    """A turn that corrects nothing moves nothing else."""
    now = adjustable.set_right(CORES)
    assert now.bench.there == ()
    assert all(error == 0.0 for error in now.errors.values())


def test_a_frequency_that_was_set_reads_so(adjustable: Adjustable) -> None:
    """The oscillator of the trimmer is moved, and no other."""
    before = adjustable.bench.frequencies
    finding = read_answer(adjustable.bench.model, ERROR, "+0.05 kHz")
    now = adjustable.reading(TRANSMIT, finding).bench
    assert before is not None
    assert now.frequencies is not None
    assert now.frequencies.value(now.model.checks[ERROR]) == pytest.approx(0.05, abs=1e-9)
    pairs = zip(before.offsets_ppm, now.frequencies.offsets_ppm, strict=True)
    assert sum(a != b for a, b in pairs) == 1


def test_a_repair_elsewhere_leaves_the_frequencies(adjustable: Adjustable) -> None:
    """A loudspeaker moves no crystal."""
    other = adjustable.bench.turned({"loudspeaker.external-impedance": 1})
    assert other.frequencies == adjustable.bench.frequencies
    drifted = adjustable.bench.turned({TRANSMIT: 1})
    assert drifted.frequencies != adjustable.bench.frequencies


def test_a_level_that_was_set_is_read_until_it_is_moved(adjustable: Adjustable) -> None:
    """The reading lies about what was set, within four deviations of the check."""
    bench = adjustable.bench
    now = adjustable.reading(LOW, read_answer(bench.model, POWER, "0.31 W"))
    check = bench.model.checks[POWER]
    assert check.meter is not None
    (value,) = (now.bench.reading(check, now.bench.dice("proof")),)
    assert abs(value - 0.31) <= 4.0 * check.meter.spreads[0].sd
    assert now.set_right(LOW).bench.levels == {}
