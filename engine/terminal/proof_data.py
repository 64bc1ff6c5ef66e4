"""A proof as plain records for a script."""

from typing import Any

from engine.proving.opening import ProofCase
from engine.proving.sheet import Bound, ProofSheet
from engine.proving.verdict import Proved, Row
from engine.proving.words import RULE, VERDICTS, caveats, reasons

Data = dict[str, Any]


def blank_data(sheet: ProofSheet, rules: str) -> Data:
    """Return what is to be measured under a rule set."""
    return {
        "family": sheet.family,
        "rules": rules,
        "knowledge": sheet.version,
        "cautions": [each.id for each in sheet.cautions.values()],
        "points": [
            {
                "point": point.id,
                "title": point.title,
                "channel": point.channel,
                "right_mhz": point.right_mhz,
                "unit": point.unit or None,
                "measured_with": [meter.instrument for meter in point.meters],
                "needs": list(point.needs),
                "bounds": [_bound(each) for each in point.bounds[rules]],
            }
            for point in sheet.points
        ],
    }


def proof_data(case: ProofCase) -> Data:
    """Return what a file proves: readings in the units of their points, chances in [0, 1]."""
    proved = case.now
    return {
        "family": proved.sheet.family,
        "title": case.title,
        "rules": proved.rules.id,
        "knowledge": proved.sheet.version,
        "verdict": proved.verdict,
        "words": VERDICTS[proved.verdict],
        "reasons": list(reasons(proved)),
        "missing": [row.point.id for row in proved.missing],
        "caveats": list(caveats(proved)),
        "decision_rule": RULE,
        "points": [_row(row) for row in proved.rows],
        "before": _before(case.before),
    }


def _before(proved: Proved) -> list[Data]:
    return [_row(row) for row in proved.rows if row.reading]


def _row(row: Row) -> Data:
    reading = row.reading
    return {
        "point": row.point.id,
        "verdict": row.verdict,
        "said": reading.said if reading else None,
        "value": reading.value if reading and reading.is_seen is None else None,
        "seen": reading.is_seen if reading else None,
        "unit": row.point.unit or None,
        "standard_uncertainty": reading.sd if reading and reading.is_seen is None else None,
        "accuracy": reading.accuracy if reading else None,
        "accuracy_is_usual": reading.is_usual if reading else None,
        "held": [
            {
                **_bound(each.bound),
                "verdict": each.judgement.verdict,
                "value": each.judgement.value,
                "in": each.judgement.unit,
                "guard": each.judgement.guard,
                "needed": each.judgement.needed,
                "p_kept": each.p_kept,
            }
            for each in row.held
        ],
    }


def _bound(bound: Bound) -> Data:
    limit = bound.limit
    return {
        "id": limit.id,
        "guide": bound.is_guide,
        "limit": limit.value,
        "unit": limit.unit,
        "direction": limit.direction,
        "against": bound.against or None,
        "condition": limit.condition,
        "source": limit.source,
        "read": limit.read,
    }
