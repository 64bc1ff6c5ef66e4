"""Offsets as a Gaussian that each reading narrows: a Kalman filter for a vector at rest.

References:
    Kalman, Trans. ASME J. Basic Eng. 82 (1960) 35-45; the update for one scalar reading.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import log, pi
from operator import mul

LOG_2PI = log(2.0 * pi)
Row = tuple[float, ...]
Rows = tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Belief:
    """A Gaussian over offsets in ppm: means and covariance; `log_weight` is natural."""

    log_weight: float
    mean: Row
    covariance: Rows

    def predicted(self, row: Row, sd: float) -> tuple[float, float]:
        """Return mean and variance of a reading that is `row` times the offsets, with noise."""
        return sum(map(mul, row, self.mean)), narrowing(self.covariance, row, sd).variance

    def narrowed(self, how: "Narrowing", step: float, log_weight: float) -> "Belief":
        """Return the belief after a reading; `step` is its surprise over its variance."""
        mean = tuple([m + c * step for m, c in zip(self.mean, how.spread)])  # noqa: B905
        return Belief(log_weight, mean, how.covariance)

    def weighing(self, log_weight: float) -> "Belief":
        """Return the same offsets with another weight."""
        return Belief(log_weight, self.mean, self.covariance)


@dataclass(frozen=True, slots=True)
class Narrowing:
    """What a reading does to a covariance, whatever it reads."""

    variance: float
    log_peak: float  # log of the density where nothing surprises
    spread: Row  # covariance of each offset with the reading
    covariance: Rows


@lru_cache(maxsize=8192)
def narrowing(covariance: Rows, row: Row, sd: float) -> Narrowing:
    """Return it; kept, because many hypotheses differ in their means only."""
    spread = tuple([sum(map(mul, row, line)) for line in covariance])
    variance = sum(map(mul, row, spread)) + sd * sd
    after = tuple(
        tuple([p - a * b / variance for p, b in zip(line, spread, strict=True)])
        for line, a in zip(covariance, spread, strict=True)
    )
    return Narrowing(variance, -0.5 * (LOG_2PI + log(variance)), spread, after)


def at_first(means: Row, sds: Row, log_weight: float) -> Belief:
    """Return independent offsets with these means and standard deviations, in ppm."""
    return Belief(log_weight, means, _diagonal(sds))


@lru_cache(maxsize=1024)
def _diagonal(sds: Row) -> Rows:
    size = range(len(sds))
    return tuple(tuple(sds[i] ** 2 if i == j else 0.0 for j in size) for i in size)
