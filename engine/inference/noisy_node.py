"""One noisy-or node: its chances, and about what seeing it would tell."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log2, prod

from engine.inference.gain import entropy
from engine.inference.propagation import Calibration

ABSENT, SEEN = (1.0, 0.0), (0.0, 1.0)


@dataclass(frozen=True, slots=True)
class NoisyOr:
    """A node with the states absent and seen; `chances` of each state of each cause to show it."""

    otherwise: float  # in (0, 1): chance to see it with none of the causes there
    chances: Mapping[str, tuple[float, ...]]  # 0 in the first state of a cause

    def absent(self) -> dict[str, list[float]]:
        """Return P(this cause does not show it | its state), for each cause."""
        return {cause: [1.0 - p for p in row] for cause, row in self.chances.items()}


def shows(node: NoisyOr, calibration: Calibration) -> list[tuple[float, float]]:
    """Return (chance, P(seen | it)) of no cause being there, and of each being the one that is.

    As if never two of its causes were there together: right where each is rare.
    """
    rows = [
        (p, 1.0 - (1.0 - node.otherwise) * (1.0 - chance))
        for cause, chances in node.chances.items()
        for p, chance in zip(calibration.posterior(cause)[1:], chances[1:], strict=True)
    ]
    none = prod(max(calibration.posterior(cause)[0], 0.0) for cause in node.chances)
    some = sum(p for p, _ in rows)
    scale = (1.0 - none) / some if some else 0.0
    return [(none if some else 1.0, node.otherwise), *((p * scale, seen) for p, seen in rows)]


def node_gain(node: NoisyOr, calibration: Calibration) -> float:
    """Return about how much looking for it tells of its causes, in bits, at least 0."""
    rows = shows(node, calibration)
    chance = sum(p * seen for p, seen in rows)
    rest = sum(p * entropy((seen, 1.0 - seen)) for p, seen in rows)
    return max(entropy((chance, 1.0 - chance)) - rest, 0.0)


def mean_log2_seen(node: NoisyOr, before: Calibration) -> float:
    """Return about the mean of log2 P(seen | causes) once it was seen; `before` is without that."""
    rows = [(p * seen, seen) for p, seen in shows(node, before)]
    total = sum(p for p, _ in rows)
    return sum(p / total * log2(seen) for p, seen in rows)
