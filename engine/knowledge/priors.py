"""Rules on priors: parts, modes and shares."""

from collections import Counter
from collections.abc import Iterator
from math import isclose

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.schema import Block, Cause, Way
from engine.knowledge.tables import Parts

PARTS = "tables/parts.yaml"
ROUNDING = 5e-4  # published shares have three or four digits; a sum off by more is a slip


def prior_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with where the priors of a block come from."""
    parts = draft.table(PARTS, Parts)
    for name, cause in page.model.causes.items():
        yield from _modes_and_shares(page, name, cause)
        yield from _shares_of_ways(page, name, cause)
        if parts is not None and cause.part is not None:
            yield from _part(page, name, cause, parts)


def part_problems(draft: Draft) -> Iterator[Problem]:
    """Yield the part classes whose mode shares do not sum to 1."""
    page, parts = draft.pages.get(PARTS), draft.table(PARTS, Parts)
    if page is None or parts is None:
        return
    for name, part in parts.classes.items():
        total = sum(mode.share for mode in part.modes.values())
        if not isclose(total, 1, abs_tol=ROUNDING):
            path, remedy = ("classes", name, "modes"), "Correct a share, or add the missing mode."
            yield page.source.problem(path, f"shares that sum to {total:.6g}", "1", remedy)


def _modes_and_shares(page: Page[Block], name: str, cause: Cause) -> Iterator[Problem]:
    """Modes go with a part, shares with a prior; both stand in the ways if there are any."""
    wanted, unwanted = ("mode", "share") if cause.part is not None else ("share", "mode")
    origin = "part" if cause.part is not None else "prior"
    if cause.mode is not None and (cause.ways or cause.part is None):
        beside = "ways" if cause.ways else "prior"
        at, remedy = ("causes", name, "mode"), "Remove it, or move it into a way."
        yield page.source.problem(at, f"'mode' beside '{beside}'", "one of the two", remedy)
    for way_name, way in cause.ways.items():
        path = ("causes", name, "ways", way_name)
        if getattr(way, wanted) is None:
            found, remedy = "nothing", f"Add '{wanted}': the cause has a '{origin}'."
            yield page.source.problem((*path, wanted), found, f"the key '{wanted}'", remedy)
        if getattr(way, unwanted) is not None:
            found, expected = f"'{unwanted}'", f"'{wanted}' only"
            remedy = f"Remove it: the cause has a '{origin}'."
            yield page.source.problem((*path, unwanted), found, expected, remedy)


def _shares_of_ways(page: Page[Block], name: str, cause: Cause) -> Iterator[Problem]:
    shares = [way.share for way in cause.ways.values() if way.share is not None]
    complete = shares and len(shares) == len(cause.ways) and cause.prior is not None
    if complete and not isclose(sum(shares), 1, abs_tol=ROUNDING):
        path, remedy = ("causes", name, "ways"), "Share the prior out among the ways."
        found = f"shares that sum to {sum(shares):.6g}"
        yield page.source.problem(path, found, "1", remedy)


def _part(page: Page[Block], name: str, cause: Cause, parts: Parts) -> Iterator[Problem]:
    """Hold part class and modes to the table of parts."""
    path = ("causes", name)
    yield from unknown(page.source, (*path, "part"), str(cause.part), parts.classes, "a part class")
    part = parts.classes.get(str(cause.part))
    if part is None:
        return
    expected = f"a mode of '{cause.part}'"
    if cause.mode is not None:
        yield from unknown(page.source, (*path, "mode"), cause.mode, part.modes, expected)
    for way_name, way in cause.ways.items():
        below = (*path, "ways", way_name, "mode")
        for mode in way.modes:
            yield from unknown(page.source, below, mode, part.modes, expected)
    yield from _modes_used_twice(page, name, cause.ways)


def _modes_used_twice(page: Page[Block], name: str, ways: dict[str, Way]) -> Iterator[Problem]:
    used = Counter(mode for way in ways.values() for mode in way.modes)
    for way_name, way in ways.items():
        for mode in dict.fromkeys(way.modes):
            if used[mode] > 1:
                path, found = ("causes", name, "ways", way_name, "mode"), f"'{mode}' in two ways"
                remedy = "Keep one, or write a 'prior' with shares to divide one mode."
                yield page.source.problem(path, found, "each mode once", remedy)
