"""How much a knowledge base holds."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engine.knowledge.schema import Block


@dataclass(frozen=True, slots=True)
class Census:
    """Numbers of blocks, of causes by kind and of checks by kind."""

    blocks: int
    causes: Mapping[str, int]
    checks: Mapping[str, int]


def census(blocks: Iterable[Block]) -> Census:
    """Return the numbers of `blocks`; the unlisted cause of each block is not counted."""
    counted = list(blocks)
    causes = Counter[str](cause.kind for block in counted for cause in block.causes.values())
    checks = Counter[str](check.kind for block in counted for check in block.checks.values())
    return Census(len(counted), causes, checks)
