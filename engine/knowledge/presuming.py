"""Rules on what checks presume, and on what has to be proved before somebody acts on a cause."""

from collections.abc import Iterator, Mapping

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.schema import Block
from engine.knowledge.states import signals_of


def presumption_problems(page: Page[Block]) -> Iterator[Problem]:
    """Yield presumptions of the checks of a block that name no signal or state of it."""
    for name, check in page.model.checks.items():
        for key, presumed in (("presumes", check.presumes), ("safe-while", check.safe_while)):
            yield from _named(page, name, key, presumed)


def _named(
    page: Page[Block], name: str, key: str, presumed: Mapping[str, tuple[str, ...]]
) -> Iterator[Problem]:
    known = signals_of(page.model)
    for signal, states in presumed.items():
        path = ("checks", name, key, signal)
        expected = "a signal this block needs or makes"
        yield from unknown(page.source, path, signal, known, expected)
        for state in states if signal in known else ():
            yield from unknown(page.source, path, state, known[signal], f"a state of '{signal}'")
        if signal in known and set(states) >= set(known[signal]):
            found, remedy = f"every state of '{signal}'", "Leave one out, or delete the line."
            yield page.source.problem(path, found, "a state in which it makes no sense", remedy)


def proof_problems(draft: Draft) -> Iterator[Problem]:
    """Yield checks to be made before acting on a cause that no block holds."""
    blocks = draft.blocks()
    if len(blocks) < len(draft.listed("blocks")):
        return  # a block that cannot be read may hold them
    known = [f"{name}.{check}" for name, block in blocks.items() for check in block.model.checks]
    for block in blocks.values():
        for name, cause in block.model.causes.items():
            for index, check in enumerate(cause.prove_first):
                path = ("causes", name, "prove-first", index)
                yield from unknown(block.source, path, check, known, "a check, as block.check")
