"""The signals that one cause alone puts out of order, read off the gates."""

from collections.abc import Iterator

from engine.diagnosis.auditing.single import Truth
from engine.diagnosis.model import SetModel
from engine.inference.network import Network


def harms(model: SetModel, net: Network, truth: Truth) -> Iterator[tuple[str, str]]:
    """Yield the signals that are not in order, with their states, makers before takers."""
    for name in net.nodes:
        if name in model.signals and truth[name]:
            yield name, model.signals[name].states[truth[name]]
