"""What the shelf shows of a case in a line: what is complained of, and what leads now."""

from engine.diagnosis.case import Finding
from web.views.state import Bench, said
from web.views.verdict import sentence


def line_of(bench: Bench) -> dict[str, str]:
    """Return the complaint and the verdict of a case, in words."""
    return {"complaint": "; ".join(complaints(bench)), "now": sentence(bench)}


def complaints(bench: Bench) -> list[str]:
    """Return the symptoms that were found not to be in order, in the order they were found."""
    return [_worded(bench, each) for each in bench.case.evidence() if _is_complaint(bench, each)]


def _is_complaint(bench: Bench, finding: Finding) -> bool:
    """Whether a finding is of a symptom, and not what it usually is on a sound set."""
    check = bench.model.checks[finding.check]
    if check.kind != "symptom" or finding.outcome is None:
        return False
    in_order = check.channel.rows[0]
    return in_order[list(check.outcomes).index(finding.outcome)] < max(in_order)


def _worded(bench: Bench, finding: Finding) -> str:
    title = bench.model.checks[finding.check].title
    return title if finding.outcome == "yes" else f"{title}: {said(bench.model, finding)}"
