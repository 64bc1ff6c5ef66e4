"""What a check can tell at all: the gain between a set in order and a set with one thing wrong.

References:
    Cover & Thomas, Elements of Information Theory, 2nd ed., section 2.4.
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import combinations

from engine.diagnosis.auditing.single import Audited, Truth
from engine.diagnosis.model import CheckText
from engine.inference.gain import channel, information_gain

EVEN = (0.5, 0.5)
FLOOR_BITS = 0.05  # a yes with chance 0.37 in one state and 0.63 in the other tells just less


@dataclass(frozen=True, slots=True)
class Silent:
    """A check that tells next to nothing, whatever single thing is wrong.

    `states` are those of what it looks at that it can meet.
    """

    check: str
    gain_bits: float
    states: tuple[str, ...]


def silent_checks(seen: Audited) -> Iterator[Silent]:
    """Yield the checks that do not inform, in order of the knowledge."""
    for check in seen.checks.values():
        met = sorted({truth[check.looks_at] for truth in _all_truths(seen)})
        most = most_told(check, met)
        if most < FLOOR_BITS:
            names = seen.net.nodes[check.looks_at].states
            yield Silent(check.id, most, tuple(names[number] for number in met))


def most_told(check: CheckText, states: Collection[int]) -> float:
    """Return the most a check tells between any two of some states, in bits."""
    return max((told_between(check, *pair) for pair in combinations(states, 2)), default=0.0)


def told_between(check: CheckText, one: int, other: int) -> float:
    """Return what a check tells between two states at even odds, in bits, from 0 to 1."""
    if one == other:
        return 0.0
    return information_gain(EVEN, channel([check.channel.rows[one], check.channel.rows[other]]))


def _all_truths(seen: Audited) -> Iterator[Truth]:
    yield from (seen.fine, *seen.truths.values(), *seen.happened.values())
