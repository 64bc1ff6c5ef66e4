"""What the log of a case says of proving the set: as it was typed, by point.

Nothing here knows the points; that is for the part of the page that proves.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

PROOF_INPUTS = ("prove", "prove-again", "proof-rules")


@dataclass(frozen=True, slots=True)
class Entered:
    """What was typed for a point, with the instrument if one was chosen, and the local time."""

    said: str
    instrument: str = ""
    at: str = ""


@dataclass(frozen=True, slots=True)
class ProofLog:
    """The rule set chosen, empty for the set's own; readings of now, and before the work."""

    rules: str = ""
    now: Mapping[str, Entered] = field(default_factory=dict)
    before: Mapping[str, Entered] = field(default_factory=dict)

    @property
    def is_begun(self) -> bool:
        """Whether anything was read."""
        return bool(self.now or self.before)


def logged(log: ProofLog, given: Mapping[str, Any]) -> ProofLog:
    """Return the log after a repair or one of `PROOF_INPUTS`; a reading of nothing is withdrawn.

    After a repair, or when the set is proved again, the readings so far become those before the
    work; a point read more than once before keeps its first reading, as the set came in.
    """
    if given["do"] == "proof-rules":
        return replace(log, rules=str(given["rules"]))
    if given["do"] in ("prove-again", "repair"):
        return replace(log, now={}, before={**log.now, **log.before})
    point, said = str(given["point"]), str(given.get("said", "")).strip()
    now = {name: each for name, each in log.now.items() if name != point}
    if said:
        now[point] = Entered(said, str(given.get("instrument", "")), str(given.get("at", "")))
    return replace(log, now=now)
