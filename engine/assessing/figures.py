"""Figures of a run as plain data: shares and means, each with its interval of 95 %."""

from collections.abc import Callable, Sequence
from statistics import fmean
from typing import Any, TypeVar

from engine.assessing.intervals import Interval, bootstrap_interval, share_interval

Figure = dict[str, Any]  # `at` with `low` to `high`
Row = TypeVar("Row")


def share(rows: Sequence[Row], holds: Callable[[Row], bool]) -> Figure:
    """Return of how many rows something holds, as a share."""
    return share_of(sum(map(holds, rows)), len(rows))


def share_of(found: int, of: int) -> Figure:
    """Return a share of so many; 0 of none, with nothing known about it."""
    return _figure(found / of if of else 0.0, share_interval(found, of)) | {"of": of}


def mean(rows: Sequence[Row], each: Callable[[Row], float]) -> Figure:
    """Return the mean of a number of each row; 0 of none."""
    numbers = [float(each(row)) for row in rows] or [0.0]
    return _figure(fmean(numbers), bootstrap_interval(numbers, fmean))


def _figure(at: float, interval: Interval) -> Figure:
    return {"at": at, "low": interval[0], "high": interval[1]}
