"""A step as plain records, for scripts."""

from collections.abc import Sequence
from typing import Any

from engine.diagnosis.advising.advice import frequencies_told
from engine.diagnosis.advising.explaining import Explanation
from engine.diagnosis.advising.steps import AdvisedCheck, RankedCause, Step
from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.again import checks_to_repeat, was_wrong
from engine.terminal.costs import cost_record
from engine.terminal.frequencies import frequency_records


def results(
    model: SetModel,
    case: Case,
    answer: Step,
    checks: Sequence[AdvisedCheck],
    joint: Sequence[Explanation],
) -> dict[str, Any]:
    """Return everything a step says; probabilities in [0, 1], gains and entropy in bits."""
    return {
        "format": 1,
        "family": case.family,
        "knowledge_version": model.version,
        "kinds": dict(answer.kinds),
        "verdict": {"kind": answer.verdict.kind, "causes": list(answer.verdict.causes)},
        "causes": [_cause(cause) for cause in answer.causes],
        "blocks": answer.blocks,
        "checks": [_check(check) for check in checks],
        "entropy_bits": answer.entropy_bits,
        "p_findings": 2.0**answer.log2_evidence,
        "log2_p_findings": answer.log2_evidence,
        "p_all_fine": answer.p_all_fine,
        "explanations": [
            {"causes": [list(pair) for pair in one.causes], "probability": one.probability}
            for one in joint
        ],
        "clash": [finding.check for finding in answer.clash],
        "set_aside": [finding.check for finding in answer.set_aside],
        "conflict_bits": answer.conflict_bits,
        "frequencies": frequency_records(frequencies_told(model, case)),
        "repairs": _repairs(model, case),
        "repeat": _repeat(case, answer),
        "costs": cost_record(model, case, answer),
        "doubts": [{"check": f.check, "bits": bits} for f, bits in answer.doubts],
    }


def _repairs(model: SetModel, case: Case) -> list[dict[str, Any]]:
    return [
        {"cause": repair.cause, "how": repair.how, "p_was_wrong": chance}
        for repair, chance in was_wrong(model, case)
    ]


def _repeat(case: Case, answer: Step) -> list[dict[str, Any]]:
    return [
        {"check": each.before.check, "before": each.before.said, "gain_bits": each.gain_bits}
        for each in checks_to_repeat(case, answer)
    ]


def _cause(cause: RankedCause) -> dict[str, Any]:
    return {
        "id": cause.id,
        "block": cause.block,
        "title": cause.title,
        "kind": cause.kind,
        "prior": cause.prior,
        "probability": cause.probability,
        "ways": dict(cause.ways),
    }


def _check(check: AdvisedCheck) -> dict[str, Any]:
    return {
        "id": check.id,
        "title": check.title,
        "gain_bits": check.gain_bits,
        "bits_per_min": check.bits_per_min,
        "minutes": check.minutes,
        "effort_min": check.effort_min,
        "needs": list(check.needs),
    }
