"""A set that comes back, as a file of cases: invented, of the shepherds' cooperative."""

import json
from typing import Any

from playwright.sync_api import FilePayload, Page, expect

from tests.conftest import FAMILY
from tests.web.driving import PATIENCE_MS, press, settled

CAUSE, TITLE = "driver.driver-transistor", "Driver transistor failed"
WEAK = "operating.no-trace-at-others"


def _record(name: str, opened: str, inputs: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    return {
        "id": name,
        "format": 2,
        "title": f"Set 7, {opened[:4]}",
        "owner": "Upper fold",
        "status": "bench",
        "next": "",
        "notes": "",
        "opened": opened,
        "changed": opened,
        "log": {"format": 1, "family": FAMILY, "inputs": inputs},
        "undone": [],
        **more,
    }


FOUND = [{"do": "lid", "lid": "off"}, {"do": "answer", "check": WEAK, "said": "yes"}]
MENDED = {"do": "repair", "cause": CAUSE, "how": "replaced", "at": "2025-11-20T10:08:00"}
CURED = {"do": "answer", "check": WEAK, "said": "no", "at": "2025-11-20T10:16:00"}
CLOSED = {"at": "2025-11-20T11:00:00", "how": "found", "causes": [CAUSE], "titles": [TITLE]}
THEN = _record(
    "then", "2025-11-20T09:00:00", [*FOUND, MENDED, CURED], status="closed", closed=CLOSED
)
NOW = _record("now", "2026-11-20T09:00:00", FOUND)
CASES = {"dryjoint": "cases", "format": 1, "saved": "2026-11-20T09:00:00", "cases": [THEN, NOW]}


def take_in(page: Page) -> None:
    """Open the file with both cases: the shelf is on screen then."""
    payload: FilePayload = {
        "name": "cases.json",
        "mimeType": "application/json",
        "buffer": json.dumps(CASES).encode(),
    }
    page.locator("#case-file").set_input_files(payload)
    expect(page.locator("li.case")).to_have_count(2, timeout=PATIENCE_MS)
    settled(page)


def open_case(page: Page, year: int) -> None:
    """Open the case of a year from the shelf."""
    press(page, page.get_by_role("button", name=f"Open: Set 7, {year}"))
