"""A fault tree as indented lines, and its cut sets."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from engine.terminal.showing.paragraphs import filled, one_in

MOST = 20  # cut sets of one size that are printed; --json has them all
DEEPEST = 12  # levels that are still indented further


def tree_lines(branch: dict[str, Any], depth: int = 1) -> Iterator[str]:
    """Yield the lines of a tree: a signal, then indented what brings it about."""
    indent = 2 * min(depth, DEEPEST)
    yield filled(f"{_said(branch)}, {one_in(branch['chance'])}{_how(branch)}", indent, indent + 4)
    for below in branch["below"]:
        yield from tree_lines(below, depth + 1)


def cut_set_lines(cut_sets: Sequence[dict[str, Any]]) -> Iterator[str]:
    """Yield the cut sets of one cause and of two, likeliest first."""
    for size, found in groupby(cut_sets, key=lambda one: len(one["causes"])):
        sets = list(found)
        yield f"  {'one cause' if size == 1 else 'two causes together'}: {len(sets)}"
        for one in sets[:MOST]:
            causes = " and ".join(f"{name} ({way})" for name, way in one["causes"])
            yield filled(f"{causes}, {one_in(one['chance'])}", 4, 8)
        if len(sets) > MOST:
            yield f"    and {len(sets) - MOST} rarer ones; --json has them"


def _said(branch: dict[str, Any]) -> str:
    states = " or ".join(branch["states"])
    if branch["kind"] == "all":
        return f"all of these together, making it {states}"
    return f"{branch['name']} {states}"


def _how(branch: dict[str, Any]) -> str:
    """Say how a gate comes about."""
    hows = {"any": ", by any of", "above": " (drawn above)", "all": ":"}
    return hows.get(branch["kind"], "") if branch["below"] or branch["kind"] == "above" else ""
