"""Priors of causes as numbers, and the rules that keep them possible.

A prior is failure rate x service hours x ageing x share of the mode, unless the author states it.
"""

from collections.abc import Iterator
from math import expm1

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.events import event_ids
from engine.knowledge.schema import Block, Cause
from engine.knowledge.states import PRESENT
from engine.knowledge.tables import Parts

RAREST = 1e-12  # less than this is a slip of the fingers, and lost beside 1 in any sum


def priors_of_ways(cause: Cause, parts: Parts) -> dict[str, float]:
    """Return the prior of each way of a cause (of `present` when it has none), without events."""
    if cause.prior is not None:
        shares = {name: way.share or 0.0 for name, way in cause.ways.items()} or {PRESENT: 1.0}
        return {name: cause.prior * share for name, share in shares.items()}
    part = parts.classes[str(cause.part)]
    expected = part.rate_per_1e6_h * 1e-6 * parts.service_h * part.old_set * cause.count
    modes = {name: way.modes for name, way in cause.ways.items()} or {PRESENT: (str(cause.mode),)}
    shares = {name: sum(part.modes[mode].share for mode in modes[name]) for name in modes}
    # Each way is a Poisson process of its own: the chance of at least one such failure.
    return {name: -expm1(-expected * share) for name, share in shares.items()}


def chance_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield priors that are none: too rare to be meant, or leaving no chance of being fine."""
    parts = draft.table("tables/parts.yaml", Parts)
    if parts is None or not all(_is_known(cause, parts) for cause in page.model.causes.values()):
        return
    totals = {}
    for name, cause in page.model.causes.items():
        ways = priors_of_ways(cause, parts)
        totals[name] = sum(ways.values())
        yield from _rare(page, name, cause, ways)
        if totals[name] >= 1.0:
            where = f"the rate of '{cause.part}' in tables/parts.yaml, or 'count'"
            path, found = ("causes", name), f"a prior of {totals[name]:.6g}"
            yield page.source.problem(path, found, "less than 1", f"Correct {where}.")
    yield from _events(page, totals)
    yield from _unlisted(page, sum(totals.values()))


def _is_known(cause: Cause, parts: Parts) -> bool:
    """Whether part and modes are there; other rules complain when they are not."""
    if cause.part is None:
        return True
    modes = parts.classes[cause.part].modes if cause.part in parts.classes else {}
    used = {mode for way in cause.ways.values() for mode in way.modes} or {str(cause.mode)}
    return used <= modes.keys()


def _rare(page: Page[Block], name: str, cause: Cause, ways: dict[str, float]) -> Iterator[Problem]:
    for way, prior in ways.items():
        path = ("causes", name, "ways", way) if cause.ways else ("causes", name)
        if prior < RAREST and (cause.part is not None or not cause.ways or cause.ways[way].share):
            remedy = "Correct rate, share or prior; what never happens is no cause."
            found, expected = f"a prior of {prior:.3g}", f"{RAREST:g} or more"
            yield page.source.problem(path, found, expected, remedy)


def _events(page: Page[Block], totals: dict[str, float]) -> Iterator[Problem]:
    """Events that make the same signal exclude each other, so that their priors add up."""
    for signal in page.model.makes:
        events = [e for e in event_ids(page.model) if signal in page.model.causes[e].makes]
        total = sum(totals[event] for event in events)
        if len(events) > 1 and total >= 1.0:
            found = f"events that sum to {total:.6g}: {', '.join(events)}"
            remedy = "Lower a prior, or give one of them a signal of its own."
            yield page.source.problem(("makes", signal), found, "less than 1", remedy)


def _unlisted(page: Page[Block], own: float) -> Iterator[Problem]:
    total = page.model.unlisted * own
    if total >= 1.0:
        found = f"{page.model.unlisted:g} of causes that sum to {own:.6g}"
        remedy = "Lower 'unlisted', or the priors of the causes."
        yield page.source.problem(("unlisted",), found, "less than 1 in all", remedy)
