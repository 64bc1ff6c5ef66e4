"""Sets of any size, made up to see how the work grows: chains of stages fed from common rails."""

from collections.abc import Iterator

from engine.diagnosis.making.gates import Contribution, worst_of
from engine.inference.network import Network, Node, network, root

STATES = ("right", "low", "absent")
CAUSES_A_STAGE, STAGES_A_CHAIN = 8, 25
SAME = {state: state for state in STATES}
PRIOR = 0.002


def synthetic(causes: int) -> Network:
    """Return a network of about so many causes; each cause makes its stage low or absent.

    Stages follow each other in chains; each chain has a rail of its own that enters where the
    chain begins, and a last gate collects the ends of all chains two at a time.
    """
    return network(_nodes(causes))


def _nodes(causes: int) -> Iterator[Node]:
    ends: list[Node] = []
    stages = max(causes // CAUSES_A_STAGE, 1)
    for first in range(0, stages, STAGES_A_CHAIN):
        before = root(f"rail-{first}", STATES, (1.0 - 2 * PRIOR, PRIOR, PRIOR))
        yield before
        for stage in range(first, min(first + STAGES_A_CHAIN, stages)):
            nodes = list(_stage(stage, before))
            yield from nodes
            before = nodes[-1]
        ends.append(before)
    while len(ends) > 1:
        joined = []
        for number in range(0, len(ends) - 1, 2):
            parts = [Contribution(node, SAME) for node in ends[number : number + 2]]
            nodes = list(worst_of(f"join-{len(ends)}-{number}", STATES, parts))
            yield from nodes
            joined.append(nodes[-1])
        ends = [*joined, *ends[2 * len(joined) :]]


def _stage(stage: int, before: Node) -> Iterator[Node]:
    """Yield the causes of a stage, and the gates that end in its signal."""
    parts = []
    for number in range(CAUSES_A_STAGE):
        cause = root(f"cause-{stage}-{number}", ("fine", "present"), (1.0 - PRIOR, PRIOR))
        yield cause
        parts.append(Contribution(cause, {"present": STATES[1 + number % 2]}))
    yield from worst_of(f"signal-{stage}", STATES, [*parts, Contribution(before, SAME)])
