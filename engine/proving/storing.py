"""A proof sheet as plain records and back: made natively at build time, read in the browser."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from engine.diagnosis.model import CautionText, LimitText
from engine.proving.sheet import Bound, Meter, Point, ProofSheet, Rules

Plain = Mapping[str, Any]


def plain(sheet: ProofSheet) -> dict[str, Any]:
    """Return a sheet as JSON knows it."""
    return asdict(sheet)


def loaded(records: Plain) -> ProofSheet:
    """Return the sheet that `plain` was given, with tuples where JSON has lists."""
    fields = dict(records)
    fields["rule_sets"] = {name: _rules(each) for name, each in records["rule_sets"].items()}
    fields["elsewhere"] = tuple(records["elsewhere"])
    fields["points"] = tuple(_point(each) for each in records["points"])
    fields["cautions"] = {name: CautionText(**each) for name, each in records["cautions"].items()}
    return ProofSheet(**fields)


def _rules(records: Plain) -> Rules:
    return Rules(**{**records, "not_held": tuple(records["not_held"])})


def _point(records: Plain) -> Point:
    bounds = records["bounds"].items()
    names = {name: tuple(records[name]) for name in ("needs", "cautions", "same_as")}
    made = {
        "meters": tuple(Meter(**each) for each in records["meters"]),
        "bounds": {rules: tuple(map(_bound, each)) for rules, each in bounds},
    }
    return Point(**{**records, **names, **made})


def _bound(records: Plain) -> Bound:
    return Bound(**{**records, "limit": LimitText(**records["limit"])})
