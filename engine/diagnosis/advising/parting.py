"""What would come out of a check with something there, and with it not there."""

from collections.abc import Sequence
from operator import mul

from engine.diagnosis.model import CheckText
from engine.inference.gain import Channel, channel
from engine.inference.propagation import Calibration


def outcome_chances(states: Sequence[float], check: CheckText) -> list[float]:
    """Return P(outcome) of a check from P(state) of what it looks at."""
    return [sum(map(mul, states, column)) for column in zip(*check.channel.rows, strict=True)]


def parted(check: CheckText, chance: float, now: Calibration, there: Calibration) -> Channel:
    """Return P(outcome | there) and P(outcome | not there) of something as likely as `chance`.

    `chance` is below 1; `there` is calibrated with it being there, `now` without knowing.
    """
    states, given = now.posterior(check.looks_at), there.posterior(check.looks_at)
    pairs = zip(states, given, strict=True)
    without = [max(p - chance * q, 0.0) / (1.0 - chance) for p, q in pairs]
    return channel([outcome_chances(given, check), outcome_chances(without, check)])
