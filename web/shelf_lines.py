"""What the shelf shows of a case in a line: the complaint, what leads now, what was put right."""

from engine.diagnosis.case import Finding
from engine.diagnosis.repairing.again import checks_to_repeat, has_cured
from web.views.mending import repairs_told
from web.views.state import Bench, said
from web.views.verdict import sentence

NAMED = 3  # checks to make again that the next step names


def line_of(bench: Bench) -> dict[str, str]:
    """Return the complaint and the verdict of a case, in words.

    After a repair what was put right too, and the next step as far as it follows from that.
    """
    line = {"complaint": "; ".join(complaints(bench)), "now": sentence(bench)}
    if not bench.case.past:
        return line
    causes = bench.model.causes
    done = [f"{causes[repair.cause].title} ({how})" for repair, how in repairs_told(bench)]
    return {**line, "mended": "; ".join(done), "next": _next(bench)}


def _next(bench: Bench) -> str:
    """Word what comes after a repair: to check again, or to close the case; else nothing."""
    if has_cured(bench.model, bench.case, bench.step):
        return "The last repair did it: prove the set, then close the case."
    rows = () if bench.case.evidence() else checks_to_repeat(bench.case, bench.step)[:NAMED]
    titles = [bench.model.checks[each.before.check].title for each in rows]
    return f"Check again: {'; '.join(titles)}." if titles else ""


def complaints(bench: Bench) -> list[str]:
    """Return the symptoms that were found not to be in order, in the order they were found.

    Of one that was found again after a repair the first counts: the set as it came.
    """
    first: dict[str, Finding] = {}
    for each in bench.case.all_findings():
        first.setdefault(each.check, each)
    return [_worded(bench, each) for each in first.values() if _is_complaint(bench, each)]


def _is_complaint(bench: Bench, finding: Finding) -> bool:
    """Whether a finding is of a symptom, and not what it usually is on a sound set."""
    check = bench.model.checks[finding.check]
    if check.kind != "symptom" or finding.outcome is None or not finding.is_evidence:
        return False
    in_order = check.channel.rows[0]
    return in_order[list(check.outcomes).index(finding.outcome)] < max(in_order)


def _worded(bench: Bench, finding: Finding) -> str:
    check = bench.model.checks[finding.check]
    if finding.outcome == "yes" and not check.title.endswith("?"):
        return check.title
    return f"{check.lead_in} {said(bench.model, finding)}"
