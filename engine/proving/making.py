"""From the knowledge to the proof of one kind of set: points on channels, figures of rules."""

from collections.abc import Collection, Iterator, Mapping

from engine.diagnosis.making.rules_texts import fitting_rules, rule_texts
from engine.diagnosis.making.texts import caution_texts
from engine.diagnosis.model import LimitText
from engine.knowledge.figures import number_of
from engine.knowledge.library import Library
from engine.knowledge.proof import OF_RULES, BoundDocument, GuideDocument, PointDocument
from engine.knowledge.schema import Family
from engine.proving.bounds import useful
from engine.proving.sheet import Bound, Meter, Point, ProofSheet, Rules

GUIDE = "usual figure"


def make_sheet(library: Library, family_id: str) -> ProofSheet | None:
    """Return the proof of a family; None where the knowledge has no table of points."""
    if library.proof is None:
        return None
    family = library.families[family_id]
    named = fitting_rules(library, family)
    points = tuple(_points(library, family, named))
    used = {caution for point in points for caution in point.cautions}
    return ProofSheet(
        family_id,
        family.title,
        library.version,
        family.rules,
        {name: _rules(library, name) for name in named},
        tuple(name for name in library.limits if name not in named),
        points,
        {name: text for name, text in caution_texts(library).items() if name in used},
        {
            name: library.instruments[name].title
            for name in sorted({one for point in points for one in _instruments(point)})
        },
    )


def _instruments(point: Point) -> Iterator[str]:
    yield from (meter.instrument for meter in point.meters)
    yield from point.needs


def _rules(library: Library, name: str) -> Rules:
    """Return a rule set in words, with those of its limits that no point at all looks at."""
    assert library.proof is not None
    points = library.proof.points.values()
    held = {bound.limit for point in points for bound in point.bounds}
    left = (
        f"{one}: {limit.condition}" if limit.value is None else one
        for one, limit in library.limits[name].items()
        if one not in held
    )
    said = library.rule_sets.get(name)
    if said is None:
        return Rules(name, name, "", "", "", tuple(left))
    return Rules(name, said.title, said.where, said.when, said.source, tuple(left))


def _points(library: Library, family: Family, rules: Collection[str]) -> Iterator[Point]:
    """Yield the points a family has, each on its channels, in the order of the table."""
    assert library.proof is not None
    limits = {name: rule_texts(library, name) for name in rules}
    carriers = sorted(library.channels[family.channels].carriers_mhz.items(), key=lambda c: c[1])
    words = {"low": carriers[0], "middle": carriers[(len(carriers) - 1) // 2], "high": carriers[-1]}
    for name, point in library.proof.points.items():
        if not _has(family, point.fitted_with):
            continue
        bounds = {
            each: useful(_bounds(point, family, limits[each]), point.unit or "") for each in rules
        }
        for word in point.channels:
            full = name if len(point.channels) == 1 else f"{name}@{words[word][0]}"
            yield _point(library, full, point, words[word], bounds)


def _point(
    library: Library,
    name: str,
    point: PointDocument,
    carrier: tuple[int, float],
    bounds: Mapping[str, tuple[Bound, ...]],
) -> Point:
    channel, mhz = carrier
    meters = []
    for instrument, unit in point.measured_with.items():
        known = library.instruments[instrument].accuracy[unit]
        meters.append(Meter(instrument, unit, known.percent, known.fixed, known.source))
    return Point(
        name,
        point.title,
        point.asks,
        point.how,
        channel,
        mhz,
        round(mhz + point.tone_khz / 1000.0, 6),
        point.unit or "",
        point.quantity or "",
        tuple(meters),
        point.needs,
        point.cautions,
        dict(bounds),
        point.same_as,
    )


def _bounds(
    point: PointDocument, family: Family, limits: Mapping[str, LimitText]
) -> Iterator[Bound]:
    """Yield what one rule set, and what is usual, say of a point."""
    for bound in point.bounds:
        if not _has(family, bound.fitted_with):
            continue
        if bound.limit in limits:
            yield Bound(limits[bound.limit or ""], against=bound.against or "")
        elif bound.guide is not None:
            yield from _guide(bound, bound.guide, family, limits)


def _guide(
    bound: BoundDocument, guide: GuideDocument, family: Family, limits: Mapping[str, LimitText]
) -> Iterator[Bound]:
    """Yield a guide, unless it is a share of what this family or rule set does not have."""
    times: float | None = 1.0
    if guide.of == OF_RULES:
        times = limits["deviation"].value if "deviation" in limits else None
    elif guide.of is not None:
        times = number_of(family.figures.get(guide.of, ""))
    if times is None:
        return
    value = float(f"{guide.value * times:.6g}")
    text = LimitText("guide", GUIDE, value, guide.unit, guide.direction, "", guide.source, "memory")
    yield Bound(text, True, bound.against or "", guide.says)


def _has(family: Family, wanted: Collection[str]) -> bool:
    return not wanted or any(each in family.features for each in wanted)
