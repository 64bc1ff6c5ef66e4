"""Rules on a family: its blocks exist, stand apart, and every need is wired to a like signal."""

from collections.abc import Iterator, Mapping

from engine.errors import Problem, suggest
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import listed, unknown
from engine.knowledge.schema import Block, Family
from engine.knowledge.tables import ChannelPlans, Limits

Blocks = Mapping[str, Page[Block]]


def family_problems(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with the blocks, tables and wiring of one family."""
    source, family = page.source, page.model
    plans = draft.table("tables/channels.yaml", ChannelPlans)
    if plans is not None:
        yield from unknown(source, ("channels",), family.channels, plans.plans, "a channel plan")
    limits = draft.table("tables/limits.yaml", Limits)
    if limits is not None:
        yield from unknown(source, ("rules",), family.rules, limits.rules, "a rule set")
    for block in family.blocks:
        known = draft.listed("blocks")
        yield from unknown(source, ("blocks", block), block, known, "a file in kb/blocks")
    yield from _places(page)
    yield from _wiring(page, draft.blocks())


def _places(page: Page[Family]) -> Iterator[Problem]:
    """Yield blocks that would be drawn one over the other."""
    taken: dict[tuple[int, int], str] = {}
    for block, placed in page.model.blocks.items():
        if placed.at in taken:
            path, found = ("blocks", block, "at"), f"the place of '{taken[placed.at]}'"
            remedy = "Move one of the two to a free column or row."
            yield page.source.problem(path, found, "a place of its own", remedy)
        taken.setdefault(placed.at, block)


def _wiring(page: Page[Family], blocks: Blocks) -> Iterator[Problem]:
    source, family = page.source, page.model
    for name in family.wiring:
        yield from unknown(source, ("wiring", name), name, family.blocks, "a block of this family")
    for name in family.blocks:
        if name not in blocks:
            continue  # it has problems of its own
        needs, wires = blocks[name].model.needs, family.wiring.get(name, {})
        for need, maker in wires.items():
            path = ("wiring", name, need)
            yield from unknown(source, path, need, needs, f"a need of '{name}'")
            yield from _wire(page, name, need, maker, blocks)
        for need in needs:
            if need not in wires and not needs[need].optional:
                remedy = _offer(need, family, blocks)
                expected = f"a wire for the need '{need}'"
                yield source.problem(("wiring", name), "nothing", expected, remedy)


def _wire(
    page: Page[Family], name: str, need: str, maker: str, blocks: Blocks
) -> Iterator[Problem]:
    """Hold one wire to what the making and the needing block say."""
    path, (made_by, dot, signal) = ("wiring", name, need), maker.partition(".")
    if not dot:
        remedy = "Write the making block, a full stop, and its signal."
        yield page.source.problem(path, f"'{maker}'", "block.signal", remedy)
        return
    expected = "a block of this family"
    yield from unknown(page.source, path, made_by, page.model.blocks, expected)
    if made_by not in page.model.blocks or made_by not in blocks:
        return
    makes = blocks[made_by].model.makes
    yield from unknown(page.source, path, signal, makes, f"a signal that '{made_by}' makes")
    needs = blocks[name].model.needs
    if signal in makes and need in needs and needs[need].states != makes[signal].states:
        below = ("needs", need, "states")
        family = page.source.file
        expected = f"{listed(makes[signal].states)}, the states of '{maker}' wired to it"
        remedy = f"Write the states of the maker, in its order, or mend the wire in {family}."
        found = listed(needs[need].states)
        yield blocks[name].source.problem(below, found, expected, remedy)


def _offer(need: str, family: Family, blocks: Blocks) -> str:
    """Return a remedy that names the blocks which make a signal of this name."""
    able = [b for b in family.blocks if b in blocks and need in blocks[b].model.makes]
    if able:
        return f"Write '{need}: {able[0]}.{need}'."
    made = [signal for b in family.blocks if b in blocks for signal in blocks[b].model.makes]
    return f"Wire it to 'block.signal'. {suggest(need, made)}"
