"""How chances that were told came out: what calibration is judged by."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from math import log2
from operator import add

from engine.diagnosis.advising.steps import Step, mendable

EDGES = (0.01, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9)  # of chances, between bins
BINS = len(EDGES) + 1
LEAST = 1e-12  # a chance of 0 for what is true would cost infinitely many bits


@dataclass(frozen=True, slots=True)
class Tally:
    """Sums over causes and moments; add two to have those of both.

    In each bin: how many chances were told, their sum, how many of those causes were there. The
    Brier score and the log score, in bits, are summed over the causes of a set, one by one.
    """

    told: tuple[int, ...]
    chances: tuple[float, ...]
    there: tuple[int, ...]
    moments: int
    brier: float
    log_bits: float

    def __add__(self, other: "Tally") -> "Tally":
        """Return the sums of both."""
        return Tally(
            tuple(map(add, self.told, other.told)),
            tuple(map(add, self.chances, other.chances)),
            tuple(map(add, self.there, other.there)),
            self.moments + other.moments,
            self.brier + other.brier,
            self.log_bits + other.log_bits,
        )


NOTHING = Tally((0,) * BINS, (0.0,) * BINS, (0,) * BINS, 0, 0.0, 0.0)


def tallied(answer: Step, there: Sequence[tuple[str, str]]) -> Tally:
    """Return the tally of one step: every cause that can be mended, there or not."""
    true = {cause for cause, _ in there}
    told, chances, found = [0] * BINS, [0.0] * BINS, [0] * BINS
    brier = log_bits = 0.0
    for cause in mendable(answer.causes):
        is_there, p = cause.id in true, cause.probability
        number = bisect_right(EDGES, p)
        told[number] += 1
        chances[number] += p
        found[number] += is_there
        brier += (p - is_there) ** 2
        log_bits -= log2(max(p if is_there else 1.0 - p, LEAST))
    return Tally(tuple(told), tuple(chances), tuple(found), 1, brier, log_bits)
