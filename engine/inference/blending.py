"""Several calibrations that are one distribution together, each with its share of it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf, log2

from engine.inference.gain import entropy
from engine.inference.propagation import Calibration


@dataclass(frozen=True, slots=True)
class Blend(Calibration):
    """Every part calibrated; `weights` are P(part | evidence), `parts` None where hopeless."""

    weights: tuple[float, ...]
    parts: tuple[Calibration | None, ...]

    def entropy_bits(self) -> float:
        """Return the entropy of which part it is and of all variables together, in bits."""
        pairs = zip(self.weights, self.parts, strict=True)
        return entropy(self.weights) + sum(w * p.entropy_bits() for w, p in pairs if p and w > 0.0)

    def mean_gain(self, gain: Callable[[Calibration], float | None]) -> float | None:
        """Return the mean of what the parts say of a gain, None where none of them knows it."""
        rows = zip(self.weights, self.parts, strict=True)
        gains = [(weight, gain(part)) for weight, part in rows if part is not None]
        told = [weight * bits for weight, bits in gains if bits is not None]
        return sum(told) if told else None


def weighed(logs: Sequence[float]) -> tuple[float, tuple[float, ...]]:
    """Return log2 of the sum of numbers given by their log2, and the share of each in it.

    >>> weighed([1.0, 1.0])
    (2.0, (0.5, 0.5))
    """
    most = max(logs, default=-inf)
    if most == -inf:
        return -inf, (0.0,) * len(logs)
    ratios = [2.0 ** (log - most) for log in logs]
    total = sum(ratios)
    return most + log2(total), tuple(ratio / total for ratio in ratios)


def log2_sum(logs: Sequence[float]) -> float:
    """Return log2 of a sum of numbers given by their log2.

    >>> log2_sum([1.0, 1.0])
    2.0
    """
    return weighed(logs)[0]
