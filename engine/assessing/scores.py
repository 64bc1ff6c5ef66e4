"""What a run of trials comes to: figures with intervals, as plain data for a results file."""

from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial, reduce
from operator import add
from statistics import fmean, median
from typing import Any

from engine.assessing.figures import Figure, mean, share, share_of
from engine.assessing.intervals import bootstrap_interval, share_interval
from engine.assessing.mended import Mended
from engine.assessing.mending_scores import mending_scores
from engine.assessing.tally import EDGES, NOTHING, Tally
from engine.assessing.trial import Trial

AFTER = (0, 5, 10, 15, 20, 25, 30, 40)  # checks, where shares are told
Trials = Sequence[Trial]


def scores(trials: Trials) -> dict[str, Any]:
    """Return every figure of one run as plain data; `at` is the figure, `low` to `high` 95 %."""
    acted = [trial for trial in trials if trial.verdict in ("act", "not-in-knowledge")]
    right = [trial for trial in acted if trial.is_first]
    return {
        "sets": len(trials),
        "first": share(trials, lambda trial: trial.is_first),
        "first_three": share(trials, lambda trial: 1 <= trial.ranks[-1] <= 3),
        "block": share(trials, lambda trial: trial.block_right),
        "found": share(trials, _is_found),
        "needless": share(acted, lambda trial: not trial.is_first),
        "checks": mean(trials, lambda trial: trial.checks),
        "minutes": mean(trials, lambda trial: trial.minutes),
        "median_checks_of_found": median(t.checks for t in right) if right else None,
        "median_minutes_of_found": median(t.minutes for t in right) if right else None,
        "floor": floor(trials),
        "verdicts": dict(sorted(Counter(trial.verdict for trial in trials).items())),
        "after": [_after(trials, checks) for checks in AFTER],
        "reliability": reliability(trials),
        "brier": mean(trials, lambda trial: trial.at_end.brier),
        "log_bits": mean(trials, lambda trial: trial.at_end.log_bits),
        "brier_along": mean(trials, lambda t: t.along.brier / t.along.moments),
        "clashes": sum(bool(trial.clashes) for trial in trials),
    }


def scores_of(results: Sequence[Trial | Mended]) -> dict[str, Any]:
    """Return the figures of one run, of whichever kind it was."""
    mended = [each for each in results if isinstance(each, Mended)]
    trials = [each for each in results if isinstance(each, Trial)]
    return mending_scores(mended) if mended else scores(trials)


def floor(trials: Trials) -> Figure:
    """Return what the checks come to beside two floors; each is a mean number of checks.

    `capacity`: the bits that were learned, over the most that the checks made can tell of
    anything: nobody needs fewer such checks. `on_offer`: over what the best check told at each
    moment.
    """
    made = [trial for trial in trials if trial.checks]
    if not made:
        return {"checks": 0.0, "capacity": 0.0, "on_offer": 0.0}
    learned = [max(trial.bits_at_first - trial.bits_at_last, 0.0) for trial in made]
    checks = [float(trial.checks) for trial in made]

    def per_check(bits: Callable[[Trial], float]) -> float:
        return sum(map(bits, made)) / sum(checks)

    return {
        "checks": fmean(checks),
        "bits_learned": fmean(learned),
        "capacity": fmean(learned) / per_check(lambda trial: trial.bits_possible),
        "on_offer": fmean(learned) / per_check(lambda trial: trial.bits_on_offer),
    }


def reliability(trials: Trials) -> list[Figure]:
    """Return for each bin of chances how often such causes were there, over every moment.

    Moments of one set hang together, so that the interval is drawn over sets; it is no narrower
    than that of a share of as many sets as were told such a chance.
    """
    total: Tally = reduce(add, (trial.along for trial in trials), NOTHING)
    edges = (0.0, *EDGES, 1.0)
    rows = []
    for number, told in enumerate(total.told):
        if told:
            sets = sum(trial.along.told[number] > 0 for trial in trials)
            low, high = bootstrap_interval(trials, partial(_there, number))
            at_least = share_interval(round(sets * total.there[number] / told), sets)
            low, high = min(low, at_least[0]), max(high, at_least[1])
            rows.append(
                {
                    "from": edges[number],
                    "to": edges[number + 1],
                    "told": told,
                    "sets": sets,
                    "mean": total.chances[number] / told,
                    "at": total.there[number] / told,
                    "low": low,
                    "high": high,
                }
            )
    return rows


def _there(number: int, trials: Trials) -> float:
    told = sum(trial.along.told[number] for trial in trials)
    return sum(trial.along.there[number] for trial in trials) / told if told else 0.0


def _is_found(trial: Trial) -> bool:
    """Whether the tool said to act, on something that is there."""
    return trial.verdict in ("act", "not-in-knowledge") and trial.is_first


def _after(trials: Trials, checks: int) -> Figure:
    """Return the shares after so many checks; who has stopped keeps what was said last."""
    ranks = [trial.ranks[min(checks, trial.checks)] for trial in trials]
    found = [trial.checks <= checks and _is_found(trial) for trial in trials]
    return {
        "checks": checks,
        "first": share_of(ranks.count(1), len(ranks)),
        "first_three": share_of(sum(1 <= rank <= 3 for rank in ranks), len(ranks)),
        "found": share_of(sum(found), len(found)),
    }
