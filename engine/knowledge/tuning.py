"""Rules on a family and its frequency plan: the plan is there, and tied to signals that are."""

from collections.abc import Collection, Iterator

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.schema import Family
from engine.knowledge.tables import Frequencies
from engine.knowledge.wording import Path


def family_plan_problems(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with the plan of one family and what ties it to the network."""
    source, family = page.source, page.model
    yield from _ties(page, draft)
    yield from _states(page, draft)
    if family.plan is None:
        for key, given in (("oscillators", family.oscillators), ("division", family.division)):
            if given:
                remedy = f"Write 'plan: ...', or take '{key}' out."
                yield source.problem((key,), f"'{key}' without a plan", "both", remedy)
        return
    yield from unknown(source, ("plan",), family.plan, draft.listed("plans"), "a file in kb/plans")
    plan = draft.plans().get(family.plan)
    if plan is None:
        return
    if plan.model.channels != family.channels:
        found = f"'{family.channels}', while plan '{family.plan}' has '{plan.model.channels}'"
        remedy = "Choose the plan for these channels, or the channels of this plan."
        yield source.problem(("channels",), found, "the channels of the plan", remedy)
    for name in family.oscillators:
        expected = f"an oscillator of plan '{family.plan}'"
        yield from unknown(source, ("oscillators", name), name, plan.model.oscillators, expected)


def _ties(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield names that are no signal of the family."""
    family = page.model
    named: list[tuple[Path, str]] = [
        (("oscillators", name), signal) for name, signal in family.oscillators.items()
    ]
    if family.division is not None:
        named.append((("division",), family.division))
    if family.lock is not None:
        named.append((("lock",), family.lock))
    blocks = draft.blocks()
    for path, signal in named:
        block, _, name = signal.partition(".")
        expected = "a block of this family"
        yield from unknown(page.source, path, block, family.blocks, expected)
        if block in family.blocks and block in blocks:
            makes = blocks[block].model.makes
            expected = f"a signal that '{block}' makes"
            yield from unknown(page.source, path, name, makes, expected)


def _states(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield states that kb/tables/frequencies.yaml says nothing of."""
    family = page.model
    table = draft.table("tables/frequencies.yaml", Frequencies)
    if table is None or not has_frequency_evidence(family):
        return
    named: list[tuple[Path, str, Collection[str], str]] = [
        (("oscillators", name), signal, table.offsets, "offsets")
        for name, signal in family.oscillators.items()
    ]
    named.append((("division",), str(family.division), table.division, "division"))
    named.append((("lock",), str(family.lock), table.lock, "lock"))
    for path, signal, known, part in named:
        expected = f"a state in '{part}' of kb/tables/frequencies.yaml"
        for state in _states_of(signal, draft):
            yield from unknown(page.source, path, state, known, expected)


def _states_of(signal: str, draft: Draft) -> tuple[str, ...]:
    block, _, name = signal.partition(".")
    made = draft.blocks()[block].model.makes if block in draft.blocks() else {}
    return made[name].states if name in made else ()


def has_frequency_evidence(family: Family) -> bool:
    """Whether a family says all that readings of its frequencies need."""
    ties = (family.plan, family.oscillators, family.division, family.lock)
    return all(ties)
