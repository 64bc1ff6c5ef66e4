"""Numbers as evidence: what a reading says about the state of a signal.

Each state gives a distribution, already widened by the instrument's error and cut to the span of
the check; a small share of readings is misread and may be anything in the span.
"""

import itertools
from dataclasses import dataclass
from math import erf, exp, log2, pi, sqrt

# Gauss-Legendre nodes and weights on [-1, 1], eight points (Abramowitz & Stegun, table 25.4).
HALF_RULE = (
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
)
RULE = (*((-x, w) for x, w in reversed(HALF_RULE)), *HALF_RULE)
WING = 6.0  # standard deviations: where a bell has faded


@dataclass(frozen=True, slots=True)
class Spread:
    """Readings in one state: evenly from `low` to `high`, blurred by `sd`; a bell when equal."""

    low: float
    high: float
    sd: float

    def density(self, x: float) -> float:
        """Return the density at `x`, per unit."""
        if self.low == self.high:
            z = (x - self.low) / self.sd
            return exp(-0.5 * z * z) / (self.sd * sqrt(2.0 * pi))
        rise = _phi((x - self.low) / self.sd) - _phi((x - self.high) / self.sd)
        return rise / (self.high - self.low)

    def mass(self, start: float, end: float) -> float:
        """Return the chance of a reading between `start` and `end`."""
        return self._below(end) - self._below(start)

    def _below(self, x: float) -> float:
        if self.low == self.high:
            return _phi((x - self.low) / self.sd)
        upper, lower = (x - self.low) / self.sd, (x - self.high) / self.sd
        return self.sd * (_integral(upper) - _integral(lower)) / (self.high - self.low)


@dataclass(frozen=True, slots=True)
class Meter:
    """A check that reads a number: one spread for each state, the span, the share of slips."""

    spreads: tuple[Spread, ...]
    span: tuple[float, float]
    slip: float

    def likelihood(self, x: float) -> list[float]:
        """Return the density of reading `x` in each state, per unit; 0 outside of the span."""
        start, end = self.span
        if not start <= x <= end:
            return [0.0] * len(self.spreads)
        floor = self.slip / (end - start)
        return [
            (1.0 - self.slip) * spread.density(x) / spread.mass(start, end) + floor
            for spread in self.spreads
        ]


def cells(meter: Meter, tolerance: float = 1e-8) -> list[list[float]]:
    """Return P(cell | state) for small cells of the span: rows over states, sum 1.

    The mutual information of a state and a number is an integral over the span; here it becomes
    that of a state and a cell, so that readings and named outcomes are one case. Panels with
    Gauss-Legendre nodes are halved until neither the masses nor the information, for a few
    distributions of the states, changes by more than `tolerance`.
    """
    trials = _trials(len(meter.spreads))
    start, end = meter.span
    bends = {start, end}
    for spread in meter.spreads:
        # On both sides of both ends: a panel much wider than the blur steps over it unseen.
        reach = WING * spread.sd
        near = [x + step for x in (spread.low, spread.high) for step in (-reach, 0.0, reach)]
        bends |= {x for x in near if start < x < end}
    edges = sorted(bends)
    columns: list[list[float]] = []
    for low, high in itertools.pairwise(edges):
        columns += _halve(meter, low, high, trials, tolerance)
    sums = [sum(row) for row in zip(*columns, strict=True)]
    return [
        [p / total for p in row]
        for row, total in zip(zip(*columns, strict=True), sums, strict=True)
    ]


Columns = list[list[float]]


def _halve(
    meter: Meter, low: float, high: float, trials: Columns, tolerance: float, depth: int = 14
) -> Columns:
    """Return the cells between `low` and `high`, halved as often as it takes."""
    whole, middle = _panel(meter, low, high), (low + high) / 2.0
    halves = _panel(meter, low, middle) + _panel(meter, middle, high)
    pairs = zip(_figures(whole, trials), _figures(halves, trials), strict=True)
    if depth == 0 or all(abs(a - b) < tolerance for a, b in pairs):
        return whole
    left = _halve(meter, low, middle, trials, tolerance, depth - 1)
    return left + _halve(meter, middle, high, trials, tolerance, depth - 1)


def _panel(meter: Meter, low: float, high: float) -> Columns:
    middle, half = (low + high) / 2.0, (high - low) / 2.0
    return [
        [weight * half * p for p in meter.likelihood(middle + half * node)] for node, weight in RULE
    ]


def _figures(columns: Columns, trials: Columns) -> list[float]:
    """Return the mass of each state, and the information for each trial distribution."""
    figures = [sum(row) for row in zip(*columns, strict=True)]
    for chances in trials:
        total = 0.0
        for column in columns:
            mixed = sum(p * q for p, q in zip(chances, column, strict=True))
            if mixed > 0.0:
                parts = zip(chances, column, strict=True)
                total += sum(p * q * log2(q / mixed) for p, q in parts if p * q > 0.0)
        figures.append(total)
    return figures


def _trials(states: int) -> Columns:
    """Return an even distribution, and for each state one in which it is nearly sure."""
    even = [1.0 / states] * states
    rest = [0.1 / (states - 1)] * states
    return [even, *([*rest[:s], 0.9, *rest[s + 1 :]] for s in range(states))]


def _phi(z: float) -> float:
    """Return the normal distribution function."""
    return 0.5 * (1.0 + erf(z / sqrt(2.0)))


def _integral(z: float) -> float:
    """Return the integral of the normal distribution function up to `z`."""
    return z * _phi(z) + exp(-0.5 * z * z) / sqrt(2.0 * pi)
