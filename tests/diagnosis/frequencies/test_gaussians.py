"""Narrowing offsets one reading after the other, against the textbook's formula for all at once."""

import numpy as np
import pytest

from engine.diagnosis.frequencies.gaussians import at_first, narrowing

# Bishop, Pattern Recognition and Machine Learning (2006), section 2.3.3: p(x | y) of a linear
# Gaussian model: covariance (S^-1 + A' L A)^-1, from memory.


def test_two_readings_give_what_both_at_once_give() -> None:
    """Order and number of readings do not matter."""
    belief = at_first((10.0, -5.0, 0.0), (8.0, 30.0, 3.0), 0.0)
    rows = np.array([[16.0, 10.7, -27.6], [16.0, 0.0, -16.9]])
    residuals, sds = np.array([900.0, 150.0]), np.array([10.0, 20.0])
    for row, residual, sd in zip(rows, residuals, sds, strict=True):
        mean, variance = belief.predicted(tuple(row), sd)
        how = narrowing(belief.covariance, tuple(row), sd)
        belief = belief.narrowed(how, (residual - mean) / variance, 0.0)
    prior = np.diag([64.0, 900.0, 9.0])
    precision = np.linalg.inv(prior) + rows.T @ np.diag(1.0 / sds**2) @ rows
    covariance = np.linalg.inv(precision)
    start = np.array([10.0, -5.0, 0.0])
    mean = covariance @ (rows.T @ np.diag(1.0 / sds**2) @ residuals + np.linalg.inv(prior) @ start)
    assert np.array(belief.mean) == pytest.approx(mean, rel=1e-9)
    assert np.array(belief.covariance) == pytest.approx(covariance, rel=1e-7, abs=1e-9)


def test_a_reading_of_something_else_narrows_nothing() -> None:
    """An offset that a reading does not depend on stays as it was."""
    belief = at_first((1.0, 2.0), (3.0, 4.0), 0.0)
    how = narrowing(belief.covariance, (0.0, 5.0), 1.0)
    assert how.covariance[0] == (9.0, 0.0)
    assert how.variance == 25.0 * 16.0 + 1.0
