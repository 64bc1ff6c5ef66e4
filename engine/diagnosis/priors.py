"""Priors of causes: failure rate x service hours x ageing x share of the mode.

A cause that states its own prior keeps it. An event that harms it comes on top, as in a noisy or:
it gives the cause one more chance.
"""

from math import exp

from engine.knowledge.schema import Cause
from engine.knowledge.states import PRESENT
from engine.knowledge.tables import Parts


def priors_of_ways(cause: Cause, parts: Parts) -> dict[str, float]:
    """Return the prior of each way of a cause (of `present` when it has none), without events."""
    if cause.prior is not None:
        shares = {name: way.share or 0.0 for name, way in cause.ways.items()} or {PRESENT: 1.0}
        return {name: cause.prior * share for name, share in shares.items()}
    part = parts.classes[str(cause.part)]
    expected = part.rate_per_1e6_h * 1e-6 * parts.service_h * part.old_set * cause.count
    modes = {name: way.mode for name, way in cause.ways.items()} or {PRESENT: cause.mode}
    # Each mode is a Poisson process of its own: the chance of at least one such failure.
    return {
        name: 1.0 - exp(-expected * part.modes[str(mode)].share) for name, mode in modes.items()
    }


def row_after(ways: dict[str, float], harm: float) -> list[float]:
    """Return P(fine, ways ...) once an event that harms with chance `harm` has happened.

    What the event does is shared among the ways as their priors are; sum 1.

    >>> row_after({"present": 0.25}, 0.5)
    [0.375, 0.625]
    """
    own = sum(ways.values())
    total = 1.0 - (1.0 - own) * (1.0 - harm)
    return [1.0 - total, *(total * p / own for p in ways.values())]
