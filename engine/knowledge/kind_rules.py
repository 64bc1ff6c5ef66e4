"""Rules on the table of kinds: every family has a share, and shows in every look."""

from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.answers import answer_problems
from engine.knowledge.bench import bench_problems
from engine.knowledge.draft import Draft, Page
from engine.knowledge.kinds import Kinds, kind_block
from engine.knowledge.naming import unknown


def kind_problems(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with the table of kinds, held to the families there are."""
    page = draft.pages.get("tables/kinds.yaml")
    kinds = draft.table("tables/kinds.yaml", Kinds)
    if page is None or kinds is None:
        return
    families, shares = draft.listed("families"), kinds.shares
    for name in shares:
        yield from unknown(page.source, ("shares", name), name, families, "a family")
    for name in families:
        if name not in shares:
            remedy = "Say how common it is beside the others; the shares need not sum to 1."
            yield page.source.problem(("shares",), "nothing", f"the share of '{name}'", remedy)
    if len(shares) < 2 or any(name not in families for name in shares):
        return
    block = Page(page.source, kind_block(kinds))
    yield from answer_problems(block)
    yield from bench_problems(block, draft)
