from math import log2
from statistics import fmean

import pytest
from scipy.stats import binomtest, bootstrap

from engine.assessing.capacity import capacity
from engine.assessing.intervals import bootstrap_interval, share_interval
from engine.assessing.tally import NOTHING
from tests.random_networks import random_rows


@pytest.mark.parametrize(("found", "of"), [(0, 10), (3, 10), (10, 10), (57, 80), (1, 1)])
def test_the_interval_of_a_share_is_that_of_a_library(found: int, of: int) -> None:
    """Wilson's score interval, held against scipy's."""
    theirs = binomtest(found, of).proportion_ci(0.95, "wilson")
    assert share_interval(found, of) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


def test_nothing_is_known_of_a_share_of_nothing() -> None:
    """Without sets the interval is all there is."""
    assert share_interval(0, 0) == (0.0, 1.0)


def test_the_interval_of_a_mean_is_near_that_of_a_library() -> None:
    """Percentiles of resampled means, held against scipy's with as many resamples."""
    rows = [float(n * n % 17) for n in range(40)]
    theirs = bootstrap((rows,), fmean, n_resamples=1000, method="percentile", rng=1)
    low, high = theirs.confidence_interval
    assert bootstrap_interval(rows, fmean) == pytest.approx((low, high), abs=0.35)


@pytest.mark.parametrize("wrong", [0.0, 0.1, 0.5])
def test_a_symmetric_channel_has_the_capacity_of_the_book(wrong: float) -> None:
    """1 - H(p), Cover & Thomas, section 7.1.4."""
    noise = -sum(p * log2(p) for p in (wrong, 1.0 - wrong) if p)
    rows = [[1.0 - wrong, wrong], [wrong, 1.0 - wrong]]
    assert capacity(rows) == pytest.approx(1.0 - noise, abs=2e-4)


def test_an_erasing_channel_has_the_capacity_of_the_book() -> None:
    """1 - alpha, Cover & Thomas, section 7.1.5."""
    assert capacity([[0.7, 0.3, 0.0], [0.0, 0.3, 0.7]]) == pytest.approx(0.7, abs=2e-4)


def test_capacity_is_never_less_than_what_even_states_get_through() -> None:
    """On random channels it bounds the mutual information of states drawn evenly."""
    for seed in range(20):
        rows = random_rows(seed, 3, 4)
        mean = [fmean(column) for column in zip(*rows, strict=True)]
        bits = fmean(
            sum(p * log2(p / q) for p, q in zip(row, mean, strict=True) if p) for row in rows
        )
        assert capacity(rows) >= bits - 1e-9


def test_an_empty_tally_adds_nothing() -> None:
    """Sums begin at nothing."""
    assert NOTHING + NOTHING == NOTHING
