"""A stored run: what was simulated, with which knowledge and seed, and what came out."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from engine.errors import EngineError

FORMAT = 1
SIMULATED = (
    "Simulated sets: faults drawn from the priors of the knowledge, answers from what each check "
    "shows and how often it errs. It measures the procedure, and how sharp the knowledge can be if "
    "it is right; whether the knowledge is right about real sets it cannot tell."
)


class UnreadableRun(EngineError):
    """A results file that was not written by this version."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What one run was made with."""

    family: str
    policy: str
    known: str
    faults: str
    kit: str
    report: str
    sets: int
    seed: int
    most_checks: int
    version: str  # of the knowledge

    def key(self) -> tuple[str, ...]:
        """Return what two runs share of which one replaces the other."""
        return self.family, self.policy, self.known, self.faults, self.kit, self.report


Run = dict[str, Any]  # `setting` and `scores`


def run_of(setting: Setting, scores: dict[str, Any]) -> Run:
    """Return one run as plain data."""
    return {"setting": asdict(setting), "scores": scores}


def read_runs(path: Path) -> list[Run]:
    """Return the runs of a results file, none where there is no such file.

    Raises:
        UnreadableRun: it is no such file, or of another format.
    """
    if not path.is_file():
        return []
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        found = data["format"]
    except (ValueError, KeyError, TypeError):
        raise UnreadableRun(
            f"{path}: found no results file, expected one written by 'dryjoint assess'\n"
            "  Name another file with --out."
        ) from None
    if found != FORMAT:
        raise UnreadableRun(
            f"{path}: found format {found}, expected {FORMAT}\n  Run the assessment again."
        )
    return list(data["runs"])


def keep_runs(path: Path, runs: Sequence[Run]) -> None:
    """Write runs into a results file; those of the same setting give way, others stay."""
    kept = {_key(run): run for run in [*read_runs(path), *runs]}
    data = {"format": FORMAT, "simulated": SIMULATED, "runs": [kept[key] for key in sorted(kept)]}
    path.parent.mkdir(parents=True, exist_ok=True)
    text = json.dumps(data, indent=1, ensure_ascii=False) + "\n"
    beside = path.with_suffix(".new")
    beside.write_text(text, encoding="utf-8")
    beside.replace(path)


def _key(run: Run) -> tuple[str, ...]:
    return Setting(**run["setting"]).key()
