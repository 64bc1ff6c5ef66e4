import itertools
from collections.abc import Callable, Sequence

import pytest
from scipy.integrate import quad
from scipy.stats import norm

from engine.diagnosis.readings import Meter, Spread, cells

BELL = Spread(13.0, 13.0, 0.4)
RANGE = Spread(6.0, 12.0, 0.5)
SHARP = Spread(0.0, 0.5, 0.002)
SPREADS = pytest.mark.parametrize("spread", [BELL, RANGE, SHARP], ids=["bell", "range", "sharp"])

METER = Meter((BELL, RANGE, SHARP), (0.0, 20.0), 0.02)
NARROW = Meter((Spread(0.0, 0.0, 1.0), Spread(2.0, 2.0, 1.0)), (0.0, 3.0), 0.05)


def integral(
    density: Callable[[float], float], span: Sequence[float], spreads: Sequence[Spread]
) -> float:
    """Return the area under a density, piece by piece between all places where it bends."""
    start, end = span
    near = [x + n * s.sd for s in spreads for x in (s.low, s.high) for n in (-8, 0, 8)]
    edges = sorted({start, end, *(x for x in near if start < x < end)})
    pieces = itertools.pairwise(edges)
    return sum(quad(density, low, high, limit=200)[0] for low, high in pieces)


@SPREADS
def test_mass_is_the_integral_of_the_density(spread: Spread) -> None:
    """Between any two readings."""
    for start, end in [(-5.0, 30.0), (0.1, 6.1), (11.0, 13.2)]:
        area = integral(spread.density, [start, end], [spread])
        assert spread.mass(start, end) == pytest.approx(area, abs=1e-7)


@SPREADS
def test_nearly_all_mass_is_near(spread: Spread) -> None:
    """Within eight standard deviations of the ends."""
    wide = spread.mass(spread.low - 8 * spread.sd, spread.high + 8 * spread.sd)
    assert wide == pytest.approx(1.0, abs=1e-12)


def test_a_bell_is_the_normal_distribution() -> None:
    """When both ends are equal."""
    assert BELL.density(13.3) == pytest.approx(norm(13.0, 0.4).pdf(13.3), rel=1e-12)
    assert BELL.mass(12.0, 13.1) == pytest.approx(
        norm(13.0, 0.4).cdf(13.1) - norm(13.0, 0.4).cdf(12.0), rel=1e-12
    )


def test_a_range_is_flat_inside_and_half_as_dense_at_its_ends() -> None:
    """The blur matters at the ends only."""
    assert RANGE.density(9.0) == pytest.approx(1 / 6, rel=1e-6)
    assert RANGE.density(6.0) == pytest.approx(1 / 12, rel=1e-6)
    assert RANGE.density(12.0) == pytest.approx(1 / 12, rel=1e-6)


@pytest.mark.parametrize("meter", [METER, NARROW], ids=["wide", "cut at both ends"])
def test_likelihoods_integrate_to_one_over_the_span(meter: Meter) -> None:
    """For each state: what would lie outside is shared out inside, slips included."""
    for state in range(len(meter.spreads)):

        def density(x: float, state: int = state) -> float:
            return meter.likelihood(x)[state]

        assert integral(density, meter.span, meter.spreads) == pytest.approx(1.0, abs=1e-7)


def test_a_reading_outside_of_the_span_has_no_likelihood() -> None:
    """No state gives it."""
    assert METER.likelihood(-0.1) == [0.0, 0.0, 0.0]
    assert METER.likelihood(20.1) == [0.0, 0.0, 0.0]


def test_a_slip_keeps_every_reading_possible() -> None:
    """A reading no state gives counts as misread, with equal likelihood in every state."""
    floor = METER.slip / 20.0
    assert METER.likelihood(19.0) == pytest.approx([floor] * 3, rel=1e-9)


@pytest.mark.parametrize("meter", [METER, NARROW], ids=["wide", "cut at both ends"])
def test_cells_are_distributions(meter: Meter) -> None:
    """One row for each state, sum 1; no cell is negative."""
    rows = cells(meter)
    assert [sum(row) for row in rows] == pytest.approx([1.0] * len(meter.spreads), abs=1e-12)
    assert min(min(row) for row in rows) >= 0.0
    assert len({len(row) for row in rows}) == 1
