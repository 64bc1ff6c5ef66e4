"""Stated priors that are far from what parts of their class do in the service hours."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from engine.knowledge.library import Library
from engine.knowledge.schema import Cause
from engine.knowledge.tables import Parts

FACTOR = 30.0


@dataclass(frozen=True, slots=True)
class FarPrior:
    """A stated prior above `most` or below `least`, the chances of its part class or of any.

    `part` is the class its name speaks of, or empty: then it is held against the whole table.
    """

    cause: str
    prior: float
    part: str
    least: float
    most: float


def far_priors(library: Library) -> Iterator[FarPrior]:
    """Yield the failed parts whose stated prior is out of line by more than a factor of 30.

    Only a cause of kind `fault` without a part class states what a part could be held to; the
    class is the one whose whole name stands in the cause's name or title.
    """
    for block_id, block in library.blocks.items():
        for name, cause in block.causes.items():
            if cause.kind != "fault" or cause.prior is None:
                continue
            part = spoken_of(name, cause, library.parts)
            least, most = _chances(part, library.parts)
            if not least / FACTOR <= cause.prior <= most * FACTOR:
                yield FarPrior(f"{block_id}.{name}", cause.prior, part, least, most)


def spoken_of(name: str, cause: Cause, parts: Parts) -> str:
    """Return the part class whose words all stand in a cause's name or title; the longest name."""
    said = set(re.findall(r"[a-z]+", f"{name} {cause.title}".lower()))
    able = [part for part in parts.classes if said.issuperset(part.split("-"))]
    return max(able, key=lambda part: (len(part.split("-")), part), default="")


def _chances(part: str, parts: Parts) -> tuple[float, float]:
    """Return the rarest and the commonest mode of a class over the service hours, or of all."""
    classes = [parts.classes[part]] if part else [*parts.classes.values()]
    chances = [
        one.rate_per_1e6_h * 1e-6 * parts.service_h * one.old_set * mode.share
        for one in classes
        for mode in one.modes.values()
    ]
    return min(chances), max(chances)
