"""What each outcome of a check would do to the causes, before the check is made."""

from dataclasses import dataclass

from engine.diagnosis.advising.advice import ranked_causes
from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.advising.steps import RankedCause
from engine.diagnosis.case import Case, Finding
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.frequencies.advising import frequency_outlook
from engine.diagnosis.frequencies.foreseeing import possible_readings
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.readings import Meter, Spread
from engine.diagnosis.repairing.present import present
from engine.inference.likelihoods import sure
from engine.inference.supposing import supposed

SHOWN = 8  # causes that can come to lead after an outcome


@dataclass(frozen=True, slots=True)
class OutcomeEffect:
    """One thing that may come out: how likely, and the leading causes then.

    `outcome` is None for a reading; `label` then names the readings of one state.
    """

    label: str
    outcome: str | None
    probability: float
    causes: tuple[tuple[str, float], ...]  # cause, probability then; likeliest first
    said: str = ""  # an answer that would be entered for it; of readings, one in the middle


def what_if(model: SetModel, case: Case, check_id: str) -> tuple[OutcomeEffect, ...]:
    """Return what every outcome would do to the causes, likeliest outcome first.

    Given the state of what a check looks at, its outcome tells nothing more about any cause. So
    one pass for each state serves all outcomes: they only mix these posteriors. Findings that
    cannot all be true are set aside, as in the step.
    """
    check = model.checks[check_id]
    model, told, _ = present(model, case)
    findings, _ = possible_part(model, told)
    if check.at is not None:
        return _of_frequency(model, findings, check)
    states = calibrated(model, findings).posterior(check.looks_at)
    given = [
        _given_state(model, findings, check, s) if p > 0.0 else {} for s, p in enumerate(states)
    ]
    effects = []
    for label, said, outcome, shows in outcomes_of(check):
        weights = [p * q for p, q in zip(states, shows, strict=True)]
        total = sum(weights)
        if total <= 0.0:
            continue
        then = {
            cause: sum(w * row[cause] for w, row in zip(weights, given, strict=True) if w) / total
            for cause in model.causes
        }
        top = sorted(then.items(), key=lambda item: (-round(item[1], 12), item[0]))[:SHOWN]
        effects.append(OutcomeEffect(label, outcome, total, tuple(top), said))
    return tuple(sorted(effects, key=lambda effect: (-round(effect.probability, 12), effect.label)))


def _of_frequency(
    model: SetModel, findings: tuple[Finding, ...], check: CheckText
) -> tuple[OutcomeEffect, ...]:
    """Return what readings of a frequency would do, each worked out in full."""
    believed = frequency_outlook(model, findings, calibrated(model, findings))
    effects = []
    for each in possible_readings(believed, check) if believed else ():
        finding = Finding(check.id, None, each.value, "")
        ranked = ranked_causes(model, calibrated(model, (*findings, finding)))[:SHOWN]
        causes = tuple((cause.id, cause.probability) for cause in ranked)
        said = f"{each.value:+.5f} {check.unit}"
        effects.append(OutcomeEffect(each.label, None, each.probability, causes, said))
    return tuple(sorted(effects, key=lambda effect: (-round(effect.probability, 12), effect.label)))


def tells_apart(
    effects: tuple[OutcomeEffect, ...], causes: tuple[RankedCause, ...]
) -> tuple[str, str] | None:
    """Return the two causes, of those that lead now or would, that a check separates best.

    The first rises and the second falls on the same outcome; None when nothing moves.
    """
    now = {cause.id: cause.probability for cause in causes}
    best: tuple[float, str, str] | None = None
    for effect in effects:
        if not effect.causes:
            continue
        moved = sorted((then - now[cause], cause) for cause, then in effect.causes)
        after = dict(effect.causes)
        lowest = effect.causes[-1][1]  # a cause that is not shown then is at most that likely
        fallen = sorted(
            (after.get(c.id, min(c.probability, lowest)) - c.probability, c.id)
            for c in causes[:SHOWN]
        )
        score = effect.probability * (moved[-1][0] - fallen[0][0])
        pair = (score, moved[-1][1], fallen[0][1])
        if pair[1] != pair[2] and (best is None or pair[0] > best[0] + 1e-12):
            best = pair
    return (best[1], best[2]) if best else None


def _given_state(
    model: SetModel, findings: tuple[Finding, ...], check: CheckText, state: int
) -> dict[str, float]:
    """Return the posterior of every cause were the state of the signal known."""
    row = sure(len(check.channel.rows), state)
    calibration = supposed(model.tree, calibrated(model, findings), check.looks_at, row)
    return {cause.id: cause.probability for cause in ranked_causes(model, calibration)}


def outcomes_of(check: CheckText) -> list[tuple[str, str, str | None, list[float]]]:
    """Return label, what would be entered, outcome and P(outcome | state) of all that may come out.

    Readings are taken in groups: those around what each state gives, each reading going to the
    state that makes it likeliest.
    """
    if check.meter is None:
        return [
            (title, outcome, outcome, [row[column] for row in check.channel.rows])
            for column, (outcome, title) in enumerate(check.outcomes.items())
        ]
    columns = list(zip(*check.channel.rows, strict=True))
    groups: dict[int, list[float]] = {}
    for column in columns:
        state = max(range(len(column)), key=column.__getitem__)
        before = groups.setdefault(state, [0.0] * len(column))
        groups[state] = [a + b for a, b in zip(before, column, strict=True)]
    return [
        (_label(check, check.meter, state), _middle(check, check.meter, state), None, shows)
        for state, shows in groups.items()
    ]


def _middle(check: CheckText, meter: Meter, state: int) -> str:
    """Return the reading in the middle of what a state gives, within the span."""
    spread, (low, high) = meter.spreads[state], meter.span
    return f"{min(max((spread.low + spread.high) / 2.0, low), high):.6g} {check.unit}"


def _label(check: CheckText, meter: Meter, state: int) -> str:
    spread: Spread = meter.spreads[state]
    if spread.low == spread.high:
        return f"about {spread.low:g} {check.unit}"
    return f"{spread.low:g} to {spread.high:g} {check.unit}"
