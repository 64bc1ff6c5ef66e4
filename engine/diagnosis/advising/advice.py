"""One step: how likely each cause is now, and which check would tell most."""

from math import inf

from engine.diagnosis.advising.bounds import Best, is_beaten
from engine.diagnosis.advising.confirming import TELLS_BITS, confirming, none_tells, suspects
from engine.diagnosis.advising.conflict import conflict_bits, doubts, possible_part
from engine.diagnosis.advising.effort import effort, least_share
from engine.diagnosis.advising.presuming import likely_kinds, proposable
from engine.diagnosis.advising.steps import (
    WORTH_DOING,
    AdvisedCheck,
    RankedCause,
    Step,
    Verdict,
    mendable,
)
from engine.diagnosis.case import Case, Finding
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.evidence import p_all_fine as p_all_fine
from engine.diagnosis.frequencies.advising import (
    best_channels,
    frequency_outlook,
    frequency_report,
)
from engine.diagnosis.frequencies.reporting import FrequencyReport
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.repairing.present import Present, present
from engine.inference.gain import entropy, information_gain
from engine.inference.past import noisy_gain
from engine.inference.propagation import Calibration

NEARLY_SURE = 0.9  # a cause this likely is worth acting on, unless a check can confirm or clear it
SURE = 0.97  # and this likely without further ado
LEADS = 0.5  # from here on what tells about this cause comes before what tells of everything
STANDS_OUT = 0.1  # where nothing tells about such a cause or its rivals, measuring ends
NOTHING_WRONG = 0.9
WORTH_BITS = 0.01  # a check that tells less is not worth the walk
DOUBT_BITS = 3.0  # a finding this much less likely beside the others is doubted


def step(model: SetModel, case: Case, best: int | None = None, *, is_doubting: bool = True) -> Step:
    """Return the posteriors of all causes and the gains of all checks the kit allows.

    When the findings cannot all be true, `clash` names the smallest set of them that cannot, and
    everything else is worked out without those. With `best`, only checks that may be among so many
    best ones are looked at, and those that may be proposed first: what a screen shows. Without
    `is_doubting` no finding is held against the others, which ranks nothing.
    """
    now = present(model, case)
    model, told, _ = now
    findings, clash = possible_part(model, told)
    calibration = calibrated(model, findings)
    causes = ranked_causes(model, calibration)
    lead = None if clash else _standing_out(causes)
    checks = advised_checks(now, case, calibration, best, TELLS_BITS if lead else inf)
    all_fine = p_all_fine(model, findings, calibration)
    bad, conflict = _doubted(model, findings) if is_doubting else ((), 0.0)
    verdict = _verdict(causes, checks, all_fine, findings)
    proving: tuple[str, ...] = ()
    if lead:
        verdict, proving = _about(model, findings, calibration, causes, checks, verdict)
    return Step(
        causes=causes,
        blocks=block_probabilities(model, causes),
        checks=checks,
        entropy_bits=max(calibration.entropy_bits(), 0.0),
        log2_evidence=calibration.log2_evidence,
        p_all_fine=all_fine,
        verdict=Verdict("clash", ()) if clash else verdict,
        clash=clash,
        set_aside=tuple(f for f in told if f not in findings),
        conflict_bits=conflict,
        doubts=bad,
        kinds=likely_kinds(model, calibration),
        confirming=proving,
    )


def _doubted(
    model: SetModel, findings: tuple[Finding, ...]
) -> tuple[tuple[tuple[Finding, float], ...], float]:
    """Return the findings that sit badly with the others, and how badly all sit together."""
    bad = tuple(row for row in doubts(model, findings) if row[1] >= DOUBT_BITS)
    return bad, conflict_bits(model, findings)


def ranked_causes(model: SetModel, calibration: Calibration) -> tuple[RankedCause, ...]:
    """Return every cause with its posterior, likeliest first; ties by id."""
    rows = []
    for cause in model.causes.values():
        _fine, *ways = calibration.posterior(cause.id)
        rows.append(
            RankedCause(
                cause.id,
                cause.block,
                cause.title,
                cause.kind,
                cause.prior,
                min(sum(ways), 1.0),
                tuple(zip(cause.ways, ways, strict=True)),
            )
        )
    return tuple(sorted(rows, key=lambda row: (-round(row.probability, 12), row.id)))


def advised_checks(
    now: Present,
    case: Case,
    calibration: Calibration,
    best: int | None = None,
    wanted_bits: float = inf,
) -> tuple[AdvisedCheck, ...]:
    """Return the checks that can still be made, in falling information gain; ties by id.

    With `best`, checks are left out that cannot be among so many best ones, by gain or by gain
    per minute, nor tell `wanted_bits`: no check tells more than the entropy of what it looks at.
    """
    model, _, made = now
    allowed = (c for c in model.checks.values() if c.id not in made and case.kit.allows(c))
    open_ = proposable(model, calibration, allowed)
    frequencies = [check for check in open_ if check.at is not None]
    open_ = [check for check in open_ if check.at is None]
    outside = [(check, noisy_gain(calibration, check.looks_at)) for check in open_]
    nodes = [(check, gain) for check, gain in outside if gain is not None]
    open_ = [check for check, gain in outside if gain is None]
    marginals = {name: calibration.posterior(name) for name in {c.looks_at for c in open_}}
    bound = {name: entropy(states) for name, states in marginals.items()}
    open_.sort(key=lambda check: (-bound[check.looks_at], check.id))
    minutes, share = effort(model, case), least_share(model, case)
    gains, rates = Best(best), Best(best)
    rows = []
    for check in open_:
        most = bound[check.looks_at]
        if most < wanted_bits and is_beaten(most, minutes(check), share(check), gains, rates):
            continue
        gain = information_gain(marginals[check.looks_at], check.channel)
        row = _advised(check, gain, minutes(check), share(check))
        gains.add(row.gain_bits)
        rates.add(row.bits_per_min)
        rows.append(row)
    rows += [_advised(check, gain, minutes(check), share(check)) for check, gain in nodes]
    believed = frequency_outlook(model, now.findings, calibration) if frequencies else None
    least = min(map(minutes, frequencies), default=0.0)
    if believed and not is_beaten(believed.most_bits, least, WORTH_DOING, gains, rates):
        outlook = best_channels(believed, frequencies)
        rows += [_advised(check, gain, minutes(check), share(check)) for check, gain in outlook]
    return tuple(sorted(rows, key=lambda row: (-round(row.gain_bits, 9), row.id)))


def frequencies_told(model: SetModel, case: Case) -> FrequencyReport | None:
    """Return what the frequencies that were read come to, None when none was read."""
    model, told, _ = present(model, case)
    findings, _ = possible_part(model, told)
    return frequency_report(model, findings, calibrated(model, findings))


def _advised(check: CheckText, gain_bits: float, effort_min: float, share: float) -> AdvisedCheck:
    rate = gain_bits / effort_min
    return AdvisedCheck(
        check.id,
        check.title,
        gain_bits,
        rate,
        check.minutes,
        effort_min,
        check.needs,
        share,
    )


def _about(
    model: SetModel,
    findings: tuple[Finding, ...],
    now: Calibration,
    causes: tuple[RankedCause, ...],
    checks: tuple[AdvisedCheck, ...],
    verdict: Verdict,
) -> tuple[Verdict, tuple[str, ...]]:
    """Return the verdict where a cause stands out, and the checks that confirm or clear it."""
    lead, *rivals = suspects(causes)
    leads = lead.probability >= LEADS
    proving = confirming(model, findings, now, lead, checks) if leads else ()
    if proving and lead.probability >= NEARLY_SURE:
        return Verdict("confirm", (lead.id,)), proving
    is_open = verdict.kind == "measure" and not proving
    unasked = rivals if leads else (lead, *rivals)
    if is_open and none_tells(model, findings, now, unasked, checks):
        return _no_check_left(causes), ()
    return verdict, proving


def _standing_out(causes: tuple[RankedCause, ...]) -> RankedCause | None:
    """Return the leading cause when it stands out and is not sure yet."""
    lead = next(iter(mendable(causes)), None)
    return lead if lead and STANDS_OUT <= lead.probability < SURE else None


def _verdict(
    causes: tuple[RankedCause, ...],
    checks: tuple[AdvisedCheck, ...],
    all_fine: float,
    findings: tuple[Finding, ...],
) -> Verdict:
    """Return when to stop and act, and when to go on."""
    now = mendable(causes)
    sure = [cause for cause in now if cause.probability >= NEARLY_SURE]
    if sure:
        kind = "not-in-knowledge" if sure[0].kind == "unlisted" else "act"
        return Verdict(kind, tuple(cause.id for cause in sure))
    if findings and all_fine >= NOTHING_WRONG:
        return Verdict("nothing-wrong", ())
    if checks and checks[0].gain_bits >= WORTH_BITS:
        return Verdict("measure", ())
    return _no_check_left(causes)


def _no_check_left(causes: tuple[RankedCause, ...]) -> Verdict:
    """Return the verdict that names what leads, and what is at least half as likely."""
    now = mendable(causes)
    alike = tuple(cause.id for cause in now if cause.probability >= 0.5 * now[0].probability)
    return Verdict("no-check-left", alike)


def block_probabilities(model: SetModel, causes: tuple[RankedCause, ...]) -> dict[str, float]:
    """Return for each block the chance that something in it is wrong, from above.

    The sum of its causes' chances, at most 1: exact when no two of them are there together, and
    too high by the chance that two are. Events are no fault of a block.
    """
    total: dict[str, float] = dict.fromkeys(model.blocks, 0.0)
    for cause in causes:
        if cause.kind != "event":
            total[cause.block] += cause.probability
    return {name: min(p, 1.0) for name, p in total.items()}
