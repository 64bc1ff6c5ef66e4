"""A stored measurement, and what the page of figures makes of it."""

import json
from pathlib import Path

import pytest

from web.build.how_well import how_well_page
from web.build.measured import (
    STORED,
    Measurement,
    UnreadableMeasurement,
    keep_measurement,
    read_measurement,
    row_of,
)

ROWS = (
    row_of("cold boot", "bare", [900.0, 1000.0, 1100.0], 2000.0),
    row_of("cold boot", "ours", [1900.0, 2000.0, 2600.0], 2000.0),
)
MEASURED = Measurement("2026-01-02", "2 processors, invented", ROWS)


def test_a_measurement_is_read_as_it_was_written(tmp_path: Path) -> None:
    """Every figure comes back."""
    keep_measurement(tmp_path / "m.json", MEASURED)
    assert read_measurement(tmp_path / "m.json") == MEASURED
    assert read_measurement(tmp_path / "none.json") is None


def test_the_page_tells_times_ratios_date_and_machine(tmp_path: Path) -> None:
    """The middle of three, with least and most, and how many times the other page that is."""
    keep_measurement(tmp_path / "m.json", MEASURED)
    page = how_well_page("looks.css", {}, tmp_path / "none.json", tmp_path / "m.json").decode()
    row = ["cold boot", "bare", "3", "1000 (900 to 1100)", "2.00"]
    assert "".join(f"<td>{cell}</td>" for cell in row) in page
    assert "Measured on 2026-01-02: 2 processors, invented." in page


def test_without_a_measurement_nothing_is_told(tmp_path: Path) -> None:
    """No figure is made up."""
    page = how_well_page("looks.css", {}, tmp_path / "none.json", tmp_path / "none.json").decode()
    assert "How fast it is" not in page


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (json.dumps({"format": 9}), "format 9, expected 1"),
        ("sheep", "something else, expected a measurement"),
        (json.dumps({"format": 1}), "something else, expected a measurement"),
    ],
)
def test_what_is_no_measurement_is_told(tmp_path: Path, text: str, found: str) -> None:
    """The build stops, with what to do."""
    stored = tmp_path / "m.json"
    stored.write_text(text, encoding="utf-8")
    with pytest.raises(UnreadableMeasurement) as told:
        read_measurement(stored)
    assert str(told.value) == f"{stored}: found {found}\n  Run the browser benchmark again."


def test_what_is_shipped_can_be_read() -> None:
    """And compares our page with a bare one."""
    measured = read_measurement(STORED)
    assert measured is not None
    assert {row.page for row in measured.rows} >= {"ours", "bare, as shipped"}
