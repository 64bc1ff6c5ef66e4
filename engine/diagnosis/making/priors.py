"""What an event does to the prior of a cause that it can harm.

It comes on top of the cause's own prior, as in a noisy or: it gives the cause one more chance.
"""

from engine.knowledge.chances import priors_of_ways as priors_of_ways


def row_after(ways: dict[str, float], harm: float) -> list[float]:
    """Return P(fine, ways ...) once an event that harms with chance `harm` has happened.

    What the event does is shared among the ways as their priors are; sum 1.

    >>> row_after({"present": 0.25}, 0.5)
    [0.375, 0.625]
    """
    own = sum(ways.values())
    total = own + harm - own * harm
    return [1.0 - total, *(total * p / own for p in ways.values())]
