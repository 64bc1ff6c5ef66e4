"""Rules on what repairs take: part classes and ways of getting a part that are known."""

from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.priors import PARTS
from engine.knowledge.reading import Source
from engine.knowledge.repairs import Repairs
from engine.knowledge.schema import Block
from engine.knowledge.tables import Parts
from engine.knowledge.wording import Path

TABLE = "tables/repairs.yaml"


def repair_table_problems(draft: Draft) -> Iterator[Problem]:
    """Yield part classes of the table that there are not, and unknown ways of getting one."""
    page, table = draft.pages.get(TABLE), draft.table(TABLE, Repairs)
    if page is None or table is None:
        return
    parts = draft.table(PARTS, Parts)
    for name, row in table.parts.items():
        if parts is not None:
            yield from unknown(page.source, ("parts", name), name, parts.classes, "a part class")
        yield from _getting(page.source, ("parts", name), row.getting, table)
    for name in type(table.kinds).model_fields:
        yield from _getting(page.source, ("kinds", name), table.of(name).getting, table)


def repair_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with what causes of a block say of their own repair."""
    table = draft.table(TABLE, Repairs)
    for name, cause in page.model.causes.items():
        path: Path = ("causes", name, "repair")
        if cause.repair is None:
            continue
        if cause.kind == "event":
            remedy = "Delete 'repair': what happened to a set is past; the parts it harmed have it."
            yield page.source.problem(path, "'repair' of an event", "a cause to put right", remedy)
        if table is not None:
            yield from _getting(page.source, path, cause.repair.getting, table)
        elif TABLE not in draft.files:
            yield page.source.problem(path, "no table", f"a table kb/{TABLE}", f"Write kb/{TABLE}.")


def _getting(source: Source, path: Path, name: str | None, table: Repairs) -> Iterator[Problem]:
    expected = f"a way of getting a part, of {TABLE}"
    if name is not None:
        yield from unknown(source, (*path, "getting"), name, table.getting, expected)
