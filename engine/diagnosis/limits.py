"""A limit of a rule set, as a set model carries it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LimitText:
    """A figure of a rule set, with how well it was read."""

    id: str
    rules: str
    value: float
    unit: str
    direction: str  # at-most, at-least
    condition: str
    source: str
    read: str  # read, second-hand, memory
