"""A set-up sheet as plain records for a script."""

from collections.abc import Sequence
from typing import Any

from engine.diagnosis.model import SetModel
from engine.diagnosis.settings import WantedText
from engine.setting_up.sheet import Step

Data = dict[str, Any]


def sheet_data(
    model: SetModel, sheet: Sequence[Step], rules: str, after: Sequence[str] | None
) -> Data:
    """Return the steps in order; `after` is None where everything is set up."""
    return {
        "family": model.family.id,
        "knowledge": model.version,
        "rules": rules,
        "after": None if after is None else list(after),
        "cautions": list(dict.fromkeys(one for step in sheet for one in step.cautions)),
        "steps": [_step(step) for step in sheet],
    }


def _step(step: Step) -> Data:
    setting = step.setting
    return {
        "number": step.number,
        "adjustment": step.id,
        "title": step.title,
        "chapter": setting.chapter,
        "reason": {"kind": step.reason.kind, "by": list(step.reason.by)},
        "first": list(step.first),
        "moves": list(step.disturbs),
        "together": list(step.together),
        "visits": list(step.visits),
        "check": setting.check or None,
        "mode": setting.mode,
        "needs": list(setting.needs),
        "missing": list(step.missing),
        "apply": setting.apply,
        "where": setting.where,
        "turn": setting.turn,
        "cautions": list(step.cautions),
        "wanted": [_wanted(wanted) for wanted in step.wanted],
        "source": setting.source,
    }


def _wanted(wanted: WantedText) -> Data:
    return {
        "at": wanted.at,
        "said": wanted.said,
        "answer": wanted.answer,
        "unit": wanted.unit or None,
        "aim": wanted.aim,
        "low": wanted.low,
        "high": wanted.high,
        "right_mhz": wanted.right_mhz,
        "limit": wanted.limit or None,
        "check": wanted.check or None,
    }
