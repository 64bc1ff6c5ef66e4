"""Rules on events, which harm parts of several blocks."""

from collections import defaultdict
from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.schema import Block, Family


def event_ids(block: Block) -> list[str]:
    """Return the events among the causes of a block."""
    return [name for name, cause in block.causes.items() if cause.kind == "event"]


def past_problems(page: Page[Block]) -> Iterator[Problem]:
    """Yield events that are no state of a signal; those that make one signal exclude each other."""
    for name in event_ids(page.model):
        if list(page.model.causes[name].makes.values()) != [name]:
            path, expected = ("causes", name, "makes"), f"one signal, in the state '{name}'"
            remedy = "Give the block a signal with this event among its states, and make it that."
            found = "nothing" if not page.model.causes[name].makes else "something else"
            yield page.source.problem(path, found, expected, remedy)


def harm_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield harm by events that no block knows."""
    if len(draft.blocks()) < len(draft.listed("blocks")):
        return  # the event may stand in a block that could not be read
    known = sorted({e for one in draft.blocks().values() for e in event_ids(one.model)})
    for name, cause in page.model.causes.items():
        for event in cause.harmed_by:
            path = ("causes", name, "harmed-by", event)
            yield from unknown(page.source, path, event, known, "an event")


def family_event_problems(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield events that a family has twice, and those that harm it from outside."""
    blocks = draft.blocks()
    if any(name not in blocks for name in page.model.blocks):
        return
    homes: dict[str, list[str]] = defaultdict(list)
    for name in page.model.blocks:
        for event in event_ids(blocks[name].model):
            homes[event].append(name)
    for event, names in homes.items():
        for name in names[1:]:
            found, remedy = f"'{event}', also in '{names[0]}'", "Keep one: it harms both blocks."
            path, expected = ("causes", event), f"each event once in '{page.source.file}'"
            yield blocks[name].source.problem(path, found, expected, remedy)
    yield from _from_outside(page, draft, homes)


def _from_outside(
    page: Page[Family], draft: Draft, homes: dict[str, list[str]]
) -> Iterator[Problem]:
    blocks = draft.blocks()
    elsewhere = {e: name for name, one in blocks.items() for e in event_ids(one.model)}
    for name in page.model.blocks:
        for cause_name, cause in blocks[name].model.causes.items():
            for event in cause.harmed_by:
                if event in homes or event not in elsewhere:
                    continue
                found = f"'{name}.{cause_name}' harmed by '{event}'"
                remedy = f"Add the block '{elsewhere[event]}', which has the event."
                expected = "an event of a block of this family"
                yield page.source.problem(("blocks", name), found, expected, remedy)
