import csv
from pathlib import Path

import pytest

from engine.knowledge.library import Library
from engine.radio.plans.plan import Plan

DATA = Path(__file__).parents[2] / "data"
FILES = {
    "P1": "two-crystal-up-mixed",
    "P2": "one-crystal-table-chip",
    "P3": "multi-crystal-sideband",
    "P4": "loop-crystal-multimode",
    "P5": "three-crystal-mixing",
    "P6": "one-crystal-direct-us",
    "P7": "one-crystal-direct-uk",
}


def rows(file: str) -> list[dict[str, str]]:
    """Return the rows of a table in tests/data."""
    with (DATA / file).open(encoding="utf-8", newline="") as table:
        return list(csv.DictReader(table))


@pytest.fixture(scope="session")
def plans(library: Library) -> dict[str, Plan]:
    """Return the plans of the real knowledge by the names they have in tests/data."""
    return {name: library.plans[file] for name, file in FILES.items()}
