"""A set that was on the shelf before: which of its cases count, and by whose leave.

Nothing counts by itself. A person switches it on in the case; what counts then is an input of the
log, so that the figures are the same wherever the case is opened.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.model import SetModel
from engine.diagnosis.returning import History, Visit, returned
from web.taken_back import standing

DAYS_A_MONTH = 30.44
Record = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Earlier:
    """An earlier case of the same owner's reference and kind of set.

    `ended` is its local time; `confirmed` are causes with their titles; `repairs` causes and hows,
    `mended` the same in words, where the shelf has shown it.
    """

    id: str
    title: str
    ended: str
    months: float
    confirmed: Mapping[str, str]
    is_closed: bool
    repairs: tuple[tuple[str, str], ...]
    mended: str = ""

    @property
    def visit(self) -> Visit:
        """What of it can count."""
        replaced = dict.fromkeys(cause for cause, how in self.repairs if how == "replaced")
        return Visit(self.months, tuple(self.confirmed), tuple(replaced))


def earlier_cases(about: Record, family: str, records: Iterable[Record]) -> tuple[Earlier, ...]:
    """Return the earlier cases of a set, the latest first; none while it has no owner's reference.

    Args:
        about: `id`, `owner` and `opened` of the case at hand.
        family: its kind of set; while that is not settled there are none.
        records: all cases of the shelf, that one among them or not.
    """
    owner = _same(about.get("owner"))
    if not owner or family == NOT_SURE:
        return ()
    found = [
        _earlier(each, str(about.get("opened", "")))
        for each in records
        if _same(each.get("owner")) == owner
        and each.get("id") != about.get("id")
        and not each.get("deleted")
        and (each.get("log") or {}).get("family") == family
        and str(each.get("opened", "")) < str(about.get("opened", ""))
    ]
    return tuple(sorted(found, key=lambda each: each.ended, reverse=True))


def _same(owner: Any) -> str:
    """Return an owner's reference as it is compared: spaces and capitals do not matter."""
    return " ".join(str(owner or "").split()).casefold()


def _earlier(record: Record, opened: str) -> Earlier:
    closed = record.get("closed") or {}
    is_closed = record.get("status") == "closed"
    causes = closed.get("causes", ()) if is_closed and closed.get("how") == "found" else ()
    titles = closed.get("titles") or causes
    ended = str((closed.get("at") if is_closed else "") or record.get("changed", ""))
    inputs = standing(record["log"].get("inputs", ()))
    repairs = [each for each in inputs if each.get("do") == "repair"]
    return Earlier(
        str(record["id"]),
        str(record.get("title", "")),
        ended,
        months_between(ended, opened),
        dict(zip(causes, titles, strict=False)),
        is_closed,
        tuple((str(each.get("cause")), str(each.get("how"))) for each in repairs),
        str((record.get("line") or {}).get("mended", "")),
    )


def months_between(earlier: str, later: str) -> float:
    """Return the months from one local time to another, at least 0; 0 where one is no time.

    >>> round(months_between("2026-01-01T10:00:00", "2026-07-01T10:00:00"), 1)
    5.9
    """
    try:
        days = (datetime.fromisoformat(later) - datetime.fromisoformat(earlier)).days
    except ValueError:
        return 0.0
    return round(max(days / DAYS_A_MONTH, 0.0), 1)


def visits_input(earlier: Sequence[Earlier]) -> dict[str, Any]:
    """Return the input of a log by which earlier cases count; with none, no longer."""
    visits = [each.visit for each in earlier]
    rows = [
        {"months": each.months, "causes": list(each.causes), "replaced": list(each.replaced)}
        for each in visits
        if each.causes or each.replaced
    ]
    return {"do": "history", "visits": rows}


def are_visits(given: Any) -> bool:
    """Whether `given`, as read from a file, are visits."""
    return isinstance(given, list) and all(map(_is_visit, given))


def _is_visit(given: Any) -> bool:
    if not isinstance(given, dict) or not isinstance(given.get("months"), int | float):
        return False
    lists = [given.get(name) for name in ("causes", "replaced")]
    return all(isinstance(each, list) and all(isinstance(c, str) for c in each) for each in lists)


def read_visits(given: Sequence[Record]) -> History:
    """Return the visits that an input holds."""
    return tuple(
        Visit(float(each["months"]), tuple(each["causes"]), tuple(each["replaced"]))
        for each in given
    )


def with_history(model: SetModel, inputs: Iterable[Record]) -> SetModel:
    """Return the model of a set with what counts of its past, as its log says last."""
    told = [each["visits"] for each in inputs if each.get("do") == "history"]
    if not told or model.kinds:
        return model
    return returned(model, read_visits(told[-1]))
