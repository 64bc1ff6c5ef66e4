"""The passes up and down once more, in logarithms: slower, and nothing can vanish.

For findings so lopsided that a product of plain numbers would fall below the smallest double,
such as a thousand that speak for one state and a thousand that speak for another.
"""

from collections.abc import Sequence
from math import inf, log2

from engine.inference.likelihoods import Likelihoods
from engine.inference.tree import JunctionTree

Logs = Sequence[float]


def log_entries(tree: JunctionTree, likelihoods: Likelihoods) -> list[Logs]:
    """Return log2 of the entries of every clique with the evidence multiplied in."""
    logs: list[Logs] = [(0.0,) * len(clique.weights) for clique in tree.cliques]
    for number, weights in tree.log_weights:
        logs[number] = weights
    for variable, likelihood in likelihoods.items():
        home, vector = tree.homes[variable], [_log(p) for p in likelihood]
        pairs = zip(logs[home.clique], home.state_of, strict=True)
        logs[home.clique] = [log + vector[state] for log, state in pairs]
    return logs


def log2_evidence(tree: JunctionTree, likelihoods: Likelihoods) -> float:
    """Return log2 P(evidence), -inf when impossible."""
    return sum(_upwards(tree, log_entries(tree, likelihoods))[1])


def beliefs(
    tree: JunctionTree, likelihoods: Likelihoods
) -> tuple[tuple[Sequence[float], ...], float]:
    """Return the joint posterior of every clique, and log2 P(evidence).

    Without beliefs when the evidence is impossible.
    """
    values = log_entries(tree, likelihoods)
    messages, scales = _upwards(tree, values)
    total = sum(scales)
    if total == -inf:
        return (), total
    separators: list[list[float]] = [[0.0] for _ in tree.cliques]
    for number in range(len(tree.cliques) - 1, -1, -1):
        clique, scale = tree.cliques[number], scales[number]
        pairs = zip(separators[number], messages[number], strict=True)
        ratio = [new - old - scale if old > -inf else -inf for new, old in pairs]
        spread = zip(values[number], clique.to_separator, strict=True)
        values[number] = belief = [entry + ratio[i] for entry, i in spread]
        for child, index in clique.children:
            separators[child] = _sum_out(belief, index, tree.cliques[child].separator_size)
    return tuple([2.0**log for log in belief] for belief in values), total


def _upwards(tree: JunctionTree, values: list[Logs]) -> tuple[list[list[float]], list[float]]:
    """Multiply all that is below into `values`; return messages, largest 0, and their scales."""
    messages: list[list[float]] = []
    scales: list[float] = []
    for number, clique in enumerate(tree.cliques):
        value = values[number]
        for child, index in clique.children:
            message = messages[child]
            value = [entry + message[i] for entry, i in zip(value, index, strict=True)]
        values[number] = value
        message = _sum_out(value, clique.to_separator, clique.separator_size)
        scale = max(message)
        messages.append([log - scale for log in message] if scale > -inf else message)
        scales.append(scale)
    return messages, scales


def _sum_out(value: Logs, index: Sequence[int], size: int) -> list[float]:
    """Return log2 of the marginal of a clique on a separator."""
    peaks, sums = [-inf] * size, [0.0] * size
    for log, i in zip(value, index, strict=True):
        peaks[i] = max(peaks[i], log)
    for log, i in zip(value, index, strict=True):
        sums[i] += 2.0 ** (log - peaks[i]) if log > -inf else 0.0
    return [peak + log2(total) if total else -inf for peak, total in zip(peaks, sums, strict=True)]


def _log(p: float) -> float:
    return log2(p) if p > 0.0 else -inf
