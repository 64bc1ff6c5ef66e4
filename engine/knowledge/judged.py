"""Rules on what a reading is held to: a limit of the family's rules, in a unit that fits."""

from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.measured import UNITS
from engine.knowledge.naming import unknown
from engine.knowledge.schema import Block, Check, Family
from engine.knowledge.tables import Limits

KEYS = ("quantity", "nominal-mhz", "nominal", "scale", "limit", "frequency")
ERROR = "frequency-error"


def measured_problems(page: Page[Block]) -> Iterator[Problem]:
    """Yield checks of a block whose quantity, frequency or limit has no place there."""
    for name, check in page.model.checks.items():
        given = [key for key in KEYS if getattr(check, key.replace("-", "_")) is not None]
        if given and not check.reads:
            path, remedy = ("checks", name, given[0]), f"Delete '{given[0]}'."
            found = f"'{given[0]}' of a check without 'reads'"
            yield page.source.problem(path, found, "a reading", remedy)
        elif given:
            yield from _fitting(page, name, check)


def _fitting(page: Page[Block], name: str, check: Check) -> Iterator[Problem]:
    for key in ("nominal-mhz", "nominal"):
        if getattr(check, key.replace("-", "_")) is not None and check.quantity != ERROR:
            path, remedy = ("checks", name, key), f"Write 'quantity: {ERROR}', or delete it."
            found = "a right frequency beside no error"
            yield page.source.problem(path, found, f"'quantity: {ERROR}'", remedy)
    if check.frequency is not None and check.quantity != ERROR:
        path, remedy = ("checks", name, "frequency"), f"Write 'quantity: {ERROR}', or delete it."
        found = f"'{check.frequency}' beside no error"
        yield page.source.problem(path, found, f"'quantity: {ERROR}'", remedy)
    if check.quantity is not None and check.unit not in UNITS[check.quantity]:
        path, units = ("checks", name, "quantity"), ", ".join(sorted(UNITS[check.quantity]))
        found, expected = f"'{check.quantity}' in {check.unit}", f"one in {units}"
        yield page.source.problem(path, found, expected, "Correct the quantity or the unit.")


def limit_problems(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield limits that a check of a family names and its rule set does not hold."""
    table, blocks = draft.table("tables/limits.yaml", Limits), draft.blocks()
    rules = page.model.rules
    if table is None or rules not in table.rules:
        return  # it has problems of its own
    for block in page.model.blocks:
        for name, check in blocks[block].model.checks.items() if block in blocks else ():
            if check.limit is not None:
                path, expected = ("checks", name, "limit"), f"a limit of '{rules}'"
                source, known = blocks[block].source, table.rules[rules]
                yield from unknown(source, path, check.limit, known, expected)
