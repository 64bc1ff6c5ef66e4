"""How fast the page is in a browser: a stored measurement, and its part of the page of figures."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from statistics import median
from xml.etree.ElementTree import Element

from engine.errors import EngineError
from web.build.figure_tables import figure_table
from web.views.markup import h

STORED = Path(__file__).with_name("measured.json")
FORMAT = 1
ABOUT = (
    "Times in milliseconds, the middle one of some runs with the least and the most, all measured "
    "in one go, in turns. A bare page starts the same Python and does nothing else. Compare rows "
    "with each other; another machine gives other times."
)
HEAD = ("What", "Page", "Runs", "Time, ms", "Ours is so many times that")


class UnreadableMeasurement(EngineError):
    """A stored measurement that was not written by this version."""


@dataclass(frozen=True, slots=True)
class Row:
    """One thing measured on one page; `ratio` is our middle time over this one."""

    what: str
    page: str
    runs: int
    median_ms: float
    least_ms: float
    most_ms: float
    ratio: float


@dataclass(frozen=True, slots=True)
class Measurement:
    """All that was measured in one go, when, and on what kind of machine."""

    date: str
    machine: str
    rows: tuple[Row, ...]


def row_of(what: str, page: str, times_ms: Sequence[float], ours_ms: float) -> Row:
    """Return the row of some times; `ours_ms` is the middle time of our own page."""
    middle, least, most = median(times_ms), min(times_ms), max(times_ms)
    return Row(what, page, len(times_ms), middle, least, most, ours_ms / middle)


def keep_measurement(path: Path, measured: Measurement) -> None:
    """Write a measurement in place of the one before."""
    data = {"format": FORMAT, **asdict(measured)}
    path.write_text(json.dumps(data, indent=1) + "\n", encoding="utf-8")


def read_measurement(path: Path) -> Measurement | None:
    """Return the stored measurement, None where there is no such file.

    Raises:
        UnreadableMeasurement: it is no such file, or of another format.
    """
    if not path.is_file():
        return None
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        found = data["format"]
        if found == FORMAT:
            return Measurement(data["date"], data["machine"], tuple(Row(**r) for r in data["rows"]))
        what = f"format {found}, expected {FORMAT}"
    except (ValueError, KeyError, TypeError):
        what = "something else, expected a measurement"
    raise UnreadableMeasurement(f"{path}: found {what}\n  Run the browser benchmark again.")


def measured_section(measured: Measurement) -> Element:
    """Return the part of the page that tells how fast it is."""
    rows = [
        (
            row.what,
            row.page,
            str(row.runs),
            f"{row.median_ms:.0f} ({row.least_ms:.0f} to {row.most_ms:.0f})",
            f"{row.ratio:.2f}",
        )
        for row in measured.rows
    ]
    when = f"Measured on {measured.date}: {measured.machine}."
    heading = h("h2", None, "How fast it is")
    told = (h("p", None, ABOUT), figure_table(HEAD, rows), h("p", None, when))
    return h("section", None, heading, *told)
