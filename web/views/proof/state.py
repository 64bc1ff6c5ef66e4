"""What the views of the proof are given: the case, its proof, what was typed."""

from dataclasses import dataclass

from engine.diagnosis.case import Kit
from engine.diagnosis.model import SetModel
from engine.proving.sheet import Point, ProofSheet
from engine.proving.verdict import Proved, Row
from engine.proving.words import ROWS
from web.proof_case import ProofCase
from web.proof_log import ProofLog
from web.replaying import Replayed
from web.views.state import Refused

MARKS = {"pass": "✓", "fail": "✕", "cannot-tell": "?", "poor": "!", "missing": "·"}


@dataclass(frozen=True, slots=True)
class Proving:
    """The case as it was replayed, its proof, and an entry that could not be used."""

    model: SetModel
    state: Replayed
    sheet: ProofSheet
    proof: ProofCase
    refused: Refused | None = None

    @property
    def kit(self) -> Kit:
        """What is at hand."""
        return self.state.case.kit

    @property
    def log(self) -> ProofLog:
        """What was typed."""
        return self.state.proof

    def problem_at(self, place: str) -> Refused | None:
        """Return what cannot be used at a point or of an instrument, with what was typed there."""
        if self.refused is not None and self.refused.check == place:
            return self.refused
        problem = self.proof.unusable.get(place)
        typed = self.log.now.get(place)
        return Refused(place, typed.said if typed else "", problem) if problem else None


def missing_tools(sheet: ProofSheet, point: Point, kit: Kit) -> list[str]:
    """Return the titles of what a point takes and the kit lacks."""
    meters = [meter.instrument for meter in point.meters]
    has_meter = not meters or bool(kit.instruments.intersection(meters))
    lacks = [] if has_meter else [" or ".join(sheet.instruments[each] for each in meters)]
    needs = [sheet.instruments[each] for each in point.needs if each not in kit.instruments]
    return [*lacks, *needs]


def badge_words(row: Row) -> str:
    """Return the verdict on a point with its mark: not told by colour alone."""
    return f"{MARKS[row.verdict]} {ROWS[row.verdict]}"


def counted(proved: Proved) -> str:
    """Word how many points were measured."""
    done = sum(row.reading is not None for row in proved.rows)
    return f"{done} of {len(proved.rows)} points measured"
