"""Two checks ahead: the first of the pair that is to tell most together."""

from collections.abc import Iterator, Sequence

from engine.assessing.moments import Moment
from engine.diagnosis.advising.foresight import outcomes_of
from engine.diagnosis.evidence import calibrated, likelihoods
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.repairing.present import present
from engine.inference.gain import entropy, information_gain
from engine.inference.likelihoods import Likelihoods
from engine.inference.past import calibrate, times
from engine.inference.propagation import Calibration

DOZEN = 12  # first checks looked at: those that tell most by themselves


def next_of_two(moment: Moment) -> str | None:
    """Return the first of the pair of checks that tells most together, the second after its answer.

    The gain of the first, and in the mean over its outcomes the best gain that is left then. Exact
    where a set has no more than a dozen checks with named outcomes; else over the dozen that tell
    most. Readings count by the state that they are likeliest in; frequencies are no second check.
    """
    now = present(moment.model, moment.case)
    held = likelihoods(now.model, now.findings)
    states = calibrated(now.model, now.findings)
    plain = [each for each in moment.open.values() if is_plain(moment, each)]
    worth = []
    for first in moment.answer.checks[:DOZEN]:
        check, after = now.model.checks[first.id], 0.0
        rest = [each for each in plain if each.id != check.id]
        for chance, row in outcomes(check, states) if is_plain(moment, check) else ():
            after += chance * best_gain(_then(now.model, held, check, row), rest)
        worth.append((-round(first.gain_bits + after, 9), first.id))
    return min(worth)[1] if worth else None


def is_plain(moment: Moment, check: CheckText) -> bool:
    """Whether a check looks at one signal or cause of the tables, and not at a frequency."""
    return check.at is None and check.looks_at in moment.manual.before


def outcomes(check: CheckText, known: Calibration) -> Iterator[tuple[float, Sequence[float]]]:
    """Yield each outcome that may be: its chance, and P(outcome | state)."""
    states = known.posterior(check.looks_at)
    for _, _, _, shows in outcomes_of(check):
        chance = sum(p * q for p, q in zip(states, shows, strict=True))
        if chance > 0.0:
            yield chance, shows


def best_gain(known: Calibration, checks: Sequence[CheckText]) -> float:
    """Return what the best of some checks tells, in bits; 0 of none."""
    marginals = {name: known.posterior(name) for name in {check.looks_at for check in checks}}
    most = {name: entropy(states) for name, states in marginals.items()}
    best = 0.0
    for check in sorted(checks, key=lambda each: -most[each.looks_at]):
        if most[check.looks_at] <= best:
            break
        best = max(best, information_gain(marginals[check.looks_at], check.channel))
    return best


def _then(
    model: SetModel, held: Likelihoods, check: CheckText, shows: Sequence[float]
) -> Calibration:
    """Return what is known once a check has come out so."""
    return calibrate(model.tree, times(held, {check.looks_at: shows}))
