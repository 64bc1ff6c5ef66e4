"""Simulated sets on four plans: the oscillator or line at fault is found in three readings.

Figures for more sets: `python -m tests.bench.simulated_frequencies`.
"""

import pytest

from tests.bench.simulated_frequencies import (
    LINE_POINTS,
    PLANS,
    POINTS,
    lines_found,
    oscillators_found,
)

SETS = 40


@pytest.mark.parametrize(("plan", "mode"), PLANS.items())
def test_an_oscillator_off_frequency_is_found(plan: str, mode: str) -> None:
    """At least 95 of 100 in the long run; four misses in forty would be chance 1 in 7 at that."""
    found = oscillators_found(plan, mode, POINTS, SETS, seed=7)
    assert found.first >= SETS - 3
    assert found.covered >= 0.88 * found.intervals


@pytest.mark.parametrize(("plan", "mode"), PLANS.items())
def test_a_stuck_line_is_found_exactly(plan: str, mode: str) -> None:
    """Three channels name the line and its state, where the VCO follows every count."""
    found = lines_found(plan, mode, LINE_POINTS, SETS, seed=7)
    assert found.first >= SETS - 1
