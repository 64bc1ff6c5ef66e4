"""What the stored runs come to, in two sentences for somebody who reads no table."""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.assessing.runs import Run
from web.views.markup import h


def in_short(runs: Sequence[Run]) -> Element:
    """Return the sum of runs of one way of working, each set of theirs counting the same."""
    sets = sum(run["scores"]["sets"] for run in runs)
    found = _mean(runs, "found", sets)
    checks = _mean(runs, "checks", sets)
    words = (
        f"In short: of {sets} made-up sets with one thing wrong, looked at with every instrument, "
        f"{100 * found:.0f} % ended with the right cause named and sure enough to act on. It took "
        f"{checks:.0f} checks in the mean, those included that led nowhere. A real set can hold "
        "what nobody wrote down, so treat every answer as good advice, not as proof."
    )
    return h("p", {"class": "lead", "id": "in-short"}, words)


def _mean(runs: Sequence[Run], figure: str, sets: int) -> float:
    total = sum(run["scores"][figure]["at"] * run["scores"]["sets"] for run in runs)
    return float(total / sets)
