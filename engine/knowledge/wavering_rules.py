"""Rules on what comes and goes: occasions that are known, checks that are never wrong."""

from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.answers import answer_problems
from engine.knowledge.bench import bench_problems
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.schema import Block
from engine.knowledge.tables import Parts
from engine.knowledge.wavering import CHANGES, STEADY, ComingAndGoing, wavering_block

TABLE = "tables/coming-and-going.yaml"
EXPECTED = f"an occasion of {TABLE}"
CERTAIN = {STEADY: 0.0, CHANGES: 1.0}


def wavering_problems(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with the table, and occasions of part classes that it has not."""
    page, table = draft.pages.get(TABLE), draft.table(TABLE, ComingAndGoing)
    if page is not None and table is not None:
        block = Page(page.source, wavering_block(table))
        yield from answer_problems(block)
        yield from bench_problems(block, draft)
        for name, check in table.checks.items():
            if check.yes != CERTAIN:
                remedy = "Put what is uncertain into 'otherwise' and the chances of the causes."
                expected = "{steady: 0, changes: 1}"
                yield page.source.problem(("checks", name, "yes"), "else", expected, remedy)
    parts = draft.table("tables/parts.yaml", Parts)
    for name, part in parts.classes.items() if parts else ():
        for occasion in part.comes_and_goes:
            at = ("classes", name, "comes-and-goes", occasion)
            source = draft.pages["tables/parts.yaml"].source
            yield from unknown(source, at, occasion, _known(draft), EXPECTED)


def occasion_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield occasions of the causes of a block that the table has not."""
    for name, cause in page.model.causes.items():
        for occasion in cause.comes_and_goes or ():
            path = ("causes", name, "comes-and-goes", occasion)
            yield from unknown(
                page.source, path, occasion, _known(draft), f"an occasion of {TABLE}"
            )


def _known(draft: Draft) -> list[str]:
    table = draft.table(TABLE, ComingAndGoing)
    return list(table.occasions) if table else []
