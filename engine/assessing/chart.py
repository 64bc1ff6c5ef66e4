"""A fixed order, as printed in a fault-finding chart, and splitting the signal path in halves.

Neither weighs chances: the chart goes by the manual alone, the half-split by the circuit and by
what was found right and wrong.
"""

from collections.abc import Callable, Iterator
from functools import partial

from engine.assessing.faulty_set import looks_right
from engine.assessing.manual import is_main, stage
from engine.assessing.moments import Moment
from engine.diagnosis.case import Finding
from engine.diagnosis.model import CheckText


def next_of_chart(moment: Moment) -> str | None:
    """Return the check that a printed chart asks for next, None when none is left.

    Where a measurement is not as it should be, the parts of that stage are gone through before
    the chart goes on; what is left after the chart comes in the order of the knowledge.
    """
    for block in _wrong_stages(moment):
        parts = _parts(moment, partial(_is_of, block))
        if parts:
            return parts[0]
    done = {moment.model.checks[finding.check].looks_at for finding in moment.case.findings}
    rows = [name for name in moment.manual.chart if name in moment.open]
    fresh = [name for name in rows if moment.open[name].looks_at not in done]
    return next(iter([*fresh, *rows, *moment.open]), None)


def next_half(moment: Moment) -> str | None:
    """Return the check in the middle of what may be wrong, by the circuit alone.

    What a signal found right follows from is cleared, save what a signal found wrong later still
    leaves open. Of the signals before the one found wrong last, the one that parts the causes
    left into nearest halves is measured; then the parts in what is left.
    """
    suspects = suspected(moment)
    before = moment.manual.before
    main = [each for each in moment.open.values() if is_main(moment.model, each)]
    split = [(abs(2 * len(before[c.looks_at] & suspects) - len(suspects)), c) for c in main]
    useful = [(away, check) for away, check in split if away < len(suspects)]
    if useful:
        return min(useful, key=lambda row: (row[0], moment.minutes(row[1]), row[1].id))[1].id
    parts = _parts(moment, lambda check: check.looks_at in suspects)
    return next(iter([*parts, *moment.open]), None)


def suspected(moment: Moment) -> frozenset[str]:
    """Return the causes that what was found wrong last may follow from, less those cleared."""
    before, causes = moment.manual.before, frozenset(moment.model.causes)
    left = causes
    for finding, is_right in _judged(moment):
        reach = before[moment.model.checks[finding.check].looks_at] & causes
        narrowed = left - reach if is_right else left & reach
        left = narrowed or (causes if is_right else reach)
    return left


def _wrong_stages(moment: Moment) -> Iterator[str]:
    """Yield the blocks where a measurement came out wrong, the latest first."""
    for finding, is_right in reversed(list(_judged(moment))):
        check = moment.model.checks[finding.check]
        if not is_right and is_main(moment.model, check):
            yield stage(check)


def _judged(moment: Moment) -> Iterator[tuple[Finding, bool]]:
    """Yield each finding on the circuit, and whether it came out right."""
    for finding in moment.case.evidence():
        if moment.model.checks[finding.check].looks_at in moment.manual.before:
            yield finding, looks_right(moment.model, finding)


def _parts(moment: Moment, holds: Callable[[CheckText], bool]) -> list[str]:
    """Return the open checks of parts for which `holds` is true, the quickest first."""
    found = [
        check
        for check in moment.open.values()
        if not is_main(moment.model, check) and check.kind != "symptom" and holds(check)
    ]
    return [check.id for check in sorted(found, key=lambda c: (moment.minutes(c), c.id))]


def _is_of(block: str, check: CheckText) -> bool:
    return check.block == block
