"""One step: how likely each cause is now, and which check would tell most."""

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappush, heappushpop

from engine.diagnosis.case import Case, Finding
from engine.diagnosis.conflict import conflict_bits, doubts, possible_part
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.evidence import p_all_fine as p_all_fine
from engine.diagnosis.frequencies.advising import (
    best_channels,
    frequency_outlook,
    frequency_report,
)
from engine.diagnosis.frequencies.fitting import fitted
from engine.diagnosis.frequencies.reporting import FrequencyReport
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.presuming import likely_kinds, proposable
from engine.inference.gain import entropy, information_gain
from engine.inference.mixture import noisy_gain
from engine.inference.propagation import Calibration

ACT = 0.9  # a cause this likely is worth acting on
NOTHING_WRONG = 0.9
WORTH_BITS = 0.01  # a check that tells less is not worth the walk
DOUBT_BITS = 3.0  # a finding this much less likely beside the others is doubted


@dataclass(frozen=True, slots=True)
class RankedCause:
    """A cause and how likely it is that it is there, alone or beside others."""

    id: str
    block: str
    title: str
    kind: str
    prior: float
    probability: float
    ways: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class AdvisedCheck:
    """A check the kit allows and that was not made yet, and what it would tell."""

    id: str
    title: str
    gain_bits: float
    bits_per_min: float
    minutes: float
    needs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Verdict:
    """What to do: `measure`, `act`, `no-check-left`, `clash`, `nothing-wrong`, `not-in-knowledge`.

    `causes` are those the verdict speaks of, likeliest first.
    """

    kind: str
    causes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """Everything known after the findings of a case."""

    causes: tuple[RankedCause, ...]
    blocks: dict[str, float]
    checks: tuple[AdvisedCheck, ...]
    entropy_bits: float
    log2_evidence: float
    p_all_fine: float
    verdict: Verdict
    clash: tuple[Finding, ...]  # the smallest set of findings that cannot all be true
    set_aside: tuple[Finding, ...]  # those, and any more that had to go to make the rest possible
    conflict_bits: float
    doubts: tuple[tuple[Finding, float], ...]
    kinds: tuple[tuple[str, float], ...] = ()  # where that is not sure: families, likeliest first


def step(model: SetModel, case: Case, best: int | None = None) -> Step:
    """Return the posteriors of all causes and the gains of all checks the kit allows.

    When the findings cannot all be true, `clash` names the smallest set of them that cannot, and
    everything else is worked out without those. With `best`, only checks that may be among so many
    best ones are looked at: what a screen shows first.
    """
    model = fitted(model, case.kit)
    findings, clash = possible_part(model, case.evidence())
    calibration = calibrated(model, findings)
    causes = ranked_causes(model, calibration)
    checks = advised_checks(model, case, calibration, best)
    all_fine = p_all_fine(model, findings, calibration)
    bad = tuple(row for row in doubts(model, findings) if row[1] >= DOUBT_BITS)
    return Step(
        causes=causes,
        blocks=block_probabilities(model, causes),
        checks=checks,
        entropy_bits=max(calibration.entropy_bits(), 0.0),
        log2_evidence=calibration.log2_evidence,
        p_all_fine=all_fine,
        verdict=Verdict("clash", ()) if clash else _verdict(causes, checks, all_fine, findings),
        clash=clash,
        set_aside=tuple(f for f in case.evidence() if f not in findings),
        conflict_bits=conflict_bits(model, findings),
        doubts=bad,
        kinds=likely_kinds(model, calibration),
    )


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
    model: SetModel, case: Case, calibration: Calibration, best: int | None = None
) -> tuple[AdvisedCheck, ...]:
    """Return the checks that can still be made, in falling information gain; ties by id.

    With `best`, checks are left out that cannot be among so many best ones, by gain or by gain
    per minute: no check tells more than the entropy of what it looks at.
    """
    made = {finding.check for finding in case.findings}
    allowed = (c for c in model.checks.values() if c.id not in made and case.kit.allows(c))
    open_ = proposable(model, calibration, allowed)
    frequencies = [check for check in open_ if check.at is not None]
    open_ = [check for check in open_ if check.at is None]
    outside = [(check, noisy_gain(calibration, check.looks_at)) for check in open_]
    nodes = [(check, gain) for check, gain in outside if gain is not None]
    open_ = [check for check, gain in outside if gain is None]
    marginals = {name: calibration.posterior(name) for name in {c.looks_at for c in open_}}
    bound = {name: entropy(states) for name, states in marginals.items()}
    if best is not None:
        open_.sort(key=lambda check: (-bound[check.looks_at], check.id))
    gains, rates = _Best(best), _Best(best)
    rows = []
    for check in open_:
        most = bound[check.looks_at]
        if gains.beat(most) and rates.beat(most / check.minutes):
            continue
        row = _advised(check, information_gain(marginals[check.looks_at], check.channel))
        gains.add(row.gain_bits)
        rates.add(row.bits_per_min)
        rows.append(row)
    rows += [_advised(check, gain) for check, gain in nodes]
    believed = frequency_outlook(model, case.evidence(), calibration) if frequencies else None
    if believed is not None and not _is_beaten(believed.most_bits, frequencies, gains, rates):
        rows += [_advised(check, gain) for check, gain in best_channels(believed, frequencies)]
    return tuple(sorted(rows, key=lambda row: (-round(row.gain_bits, 9), row.id)))


def frequencies_told(model: SetModel, case: Case) -> FrequencyReport | None:
    """Return what the frequencies that were read come to, None when none was read."""
    model = fitted(model, case.kit)
    findings, _ = possible_part(model, case.evidence())
    return frequency_report(model, findings, calibrated(model, findings))


def _is_beaten(
    most_bits: float, checks: Sequence[CheckText], gains: "_Best", rates: "_Best"
) -> bool:
    """Whether none of `checks` can be among the best, as none tells more than `most_bits`."""
    quickest = min(check.minutes for check in checks)
    return gains.beat(most_bits) and rates.beat(most_bits / quickest)


class _Best:
    """The largest numbers seen so far, at most `size` of them; None keeps no count."""

    def __init__(self, size: int | None) -> None:
        self.size = size
        self.heap: list[float] = []

    def beat(self, number: float) -> bool:
        """Whether so many larger ones were seen that `number` does not matter."""
        return self.size is not None and len(self.heap) == self.size and number < self.heap[0]

    def add(self, number: float) -> None:
        """Take note of a number."""
        if self.size is not None:
            push = heappushpop if len(self.heap) == self.size else heappush
            push(self.heap, number)


def by_minutes(checks: tuple[AdvisedCheck, ...]) -> tuple[AdvisedCheck, ...]:
    """Return the checks in falling gain per minute; ties by id."""
    return tuple(sorted(checks, key=lambda row: (-round(row.bits_per_min, 9), row.id)))


def _advised(check: CheckText, gain_bits: float) -> AdvisedCheck:
    per_min = gain_bits / check.minutes
    return AdvisedCheck(check.id, check.title, gain_bits, per_min, check.minutes, check.needs)


def _verdict(
    causes: tuple[RankedCause, ...],
    checks: tuple[AdvisedCheck, ...],
    all_fine: float,
    findings: tuple[Finding, ...],
) -> Verdict:
    """Return when to stop and act, and when to go on."""
    now = [cause for cause in causes if cause.kind != "event"]  # what happened is past mending
    sure = [cause for cause in now if cause.probability >= ACT]
    if sure:
        kind = "not-in-knowledge" if sure[0].kind == "unlisted" else "act"
        return Verdict(kind, tuple(cause.id for cause in sure))
    if findings and all_fine >= NOTHING_WRONG:
        return Verdict("nothing-wrong", ())
    if checks and checks[0].gain_bits >= WORTH_BITS:
        return Verdict("measure", ())
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
