"""Rules on the proof: names that exist, units that go together, figures that every family has."""

from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.bench import unwarned
from engine.knowledge.draft import Draft, Page
from engine.knowledge.figures import number_of
from engine.knowledge.measured import UNITS
from engine.knowledge.naming import unknown
from engine.knowledge.proof import OF_RULES, BoundDocument, PointDocument, Proof
from engine.knowledge.schema import Family
from engine.knowledge.tables import Cautions, ChannelPlans, Instruments, Limits
from engine.knowledge.wording import Path
from engine.radio.units import is_unit

TABLE, LIMITS = "tables/proof.yaml", "tables/limits.yaml"


def proof_table_problems(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with the points of the proof, and with the rule sets in words."""
    yield from _rule_sets(draft)
    page, table = draft.pages.get(TABLE), draft.table(TABLE, Proof)
    if page is None or table is None:
        return
    proof = Page(page.source, table)
    for name, point in table.points.items():
        yield from _instruments(proof, draft, name, point)
        yield from _units(proof, name, point)
        yield from _same_checks(proof, draft, name, point)
        for index, bound in enumerate(point.bounds):
            yield from _bound(proof, draft, ("points", name, "bounds", index), bound)


def _rule_sets(draft: Draft) -> Iterator[Problem]:
    """Yield rule sets in words without figures, and channels that no plan has."""
    page, table = draft.pages.get(LIMITS), draft.table(LIMITS, Limits)
    channels = draft.table("tables/channels.yaml", ChannelPlans)
    if page is None or table is None:
        return
    for name, rules in table.sets.items():
        yield from unknown(page.source, ("sets", name), name, table.rules, "a rule set")
        for index, plan in enumerate(rules.channels if channels else ()):
            assert channels is not None
            path = ("sets", name, "channels", index)
            yield from unknown(page.source, path, plan, channels.plans, "a channel plan")


def _instruments(
    page: Page[Proof], draft: Draft, name: str, point: PointDocument
) -> Iterator[Problem]:
    """Yield instruments, units of theirs and cautions that nothing answers to."""
    instruments = draft.table("tables/instruments.yaml", Instruments)
    cautions = draft.table("tables/cautions.yaml", Cautions)
    source, at = page.source, ("points", name)
    for index, needed in enumerate(point.needs if instruments else ()):
        assert instruments is not None
        path: Path = (*at, "needs", index)
        yield from unknown(source, path, needed, instruments.instruments, "an instrument")
    for meter, unit in point.measured_with.items() if instruments else ():
        assert instruments is not None
        known, path = instruments.instruments, (*at, "measured-with", meter)
        yield from unknown(source, path, meter, known, "an instrument")
        if meter in known:
            accuracy, expected = known[meter].accuracy, f"a unit of the accuracy of '{meter}'"
            yield from unknown(source, path, unit, accuracy, expected)
    for index, caution in enumerate(point.cautions if cautions else ()):
        assert cautions is not None
        path = (*at, "cautions", index)
        yield from unknown(source, path, caution, cautions.cautions, "a caution")
    yield from unwarned(source, (*at, "cautions"), point.needs, point.cautions)


def _same_checks(
    page: Page[Proof], draft: Draft, name: str, point: PointDocument
) -> Iterator[Problem]:
    """Yield checks that no block has; nothing of a block that could not be read."""
    blocks, listed = draft.blocks(), draft.listed("blocks")
    known = [f"{block}.{check}" for block, one in blocks.items() for check in one.model.checks]
    for index, check in enumerate(point.same_as):
        block = check.partition(".")[0]
        if block in blocks or block not in listed:
            path: Path = ("points", name, "same-as", index)
            yield from unknown(page.source, path, check, known, "a check of some block")


def _units(page: Page[Proof], name: str, point: PointDocument) -> Iterator[Problem]:
    """Yield a unit of a reading that is none, or that its quantity cannot have."""
    at = ("points", name)
    if point.unit is not None and not is_unit(point.unit):
        remedy = "Write one such as W, kHz, uV, % or dB."
        found, expected = f"'{point.unit}'", "a unit that readings can have"
        yield page.source.problem((*at, "unit"), found, expected, remedy)
    elif point.quantity is not None and point.unit not in UNITS[point.quantity]:
        units = ", ".join(sorted(UNITS[point.quantity]))
        found, remedy = f"'{point.quantity}' in {point.unit}", "Correct the quantity or the unit."
        yield page.source.problem((*at, "quantity"), found, f"one in {units}", remedy)


def _bound(page: Page[Proof], draft: Draft, at: Path, bound: BoundDocument) -> Iterator[Problem]:
    """Yield a limit that no rule set has, a figure that no family has, a point that is none."""
    limits = draft.table(LIMITS, Limits)
    if bound.limit is not None and limits is not None:
        known = sorted({name for rules in limits.rules.values() for name in rules})
        yield from unknown(page.source, (*at, "limit"), bound.limit, known, "a limit of some rules")
    if bound.against is not None:
        points = page.model.points
        yield from unknown(page.source, (*at, "against"), bound.against, points, "a point")
    if bound.guide is not None and bound.guide.of is not None:
        families = [each.model for each in draft.families().values()]
        path, expected = (*at, "guide", "of"), f"a figure of a family, or '{OF_RULES}'"
        yield from unknown(page.source, path, bound.guide.of, _figures(families), expected)


def _figures(families: list[Family]) -> list[str]:
    """Return the figures of all families that begin with a number."""
    found = {
        name
        for family in families
        for name, figure in family.figures.items()
        if number_of(figure) is not None
    }
    return [OF_RULES, *sorted(found)]
