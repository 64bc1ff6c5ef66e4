"""Figures of simulated runs, as a table for the terminal."""

from collections.abc import Sequence

from engine.assessing.runs import Run
from engine.assessing.ways import WAYS
from engine.terminal.columns import columns

HEAD = (
    "family", "way", "known", "faults", "kit", "sets", "first %", "three %", "found %",
    "needless %", "checks", "of found", "floor", "minutes", "Brier",
)  # fmt: skip
MENDED = (
    "family", "way", "known", "faults", "kit", "sets", "content %", "restored %", "proved %",
    "repairs", "needless", "checks", "visits", "minutes",
)  # fmt: skip
MENDED_LEGEND = """\
sets: those whose owner noticed anything; content: the owner notices nothing any more; restored:
nothing is left that any signal shows, and no point of the proof failed; proved: besides, every
limit was kept as far as the instruments can tell; repairs, needless ones of them, checks, visits to
adjustments, minutes of checks, repairs, setting up and proof: mean. In brackets: 95 %."""
LEGEND = """\
first, three: what is there leads at the end, or is among the first three; found: told to act,
on what is there; needless: of those told to act, on what is not there; checks: mean; of found:
median checks of those found; floor: checks that would do if each told the most it can; minutes:
of effort, mean. In brackets: 95 %."""


def table(runs: Sequence[Run]) -> str:
    """Return one row for each run, and what the columns mean."""
    mended = [run for run in runs if run["setting"]["policy"] in WAYS]
    others = [run for run in runs if run not in mended]
    parts = [columns(HEAD, [_row(run) for run in others]), LEGEND] if others else []
    if mended:
        parts += [columns(MENDED, [_mended_row(run) for run in mended]), MENDED_LEGEND]
    return "\n\n".join(parts)


def _mended_row(run: Run) -> tuple[object, ...]:
    setting, told = run["setting"], run["scores"]
    return (
        *(setting[key] for key in ("family", "policy", "known", "faults", "kit")),
        told["sets"],
        _percent(told["content"]),
        _percent(told["restored"]),
        _percent(told["proved"]),
        _number(told["repairs"], 1),
        _number(told["needless_repairs"], 1),
        _number(told["checks"], 1),
        _number(told["visits"], 1),
        _number(told["minutes"], 0),
    )


def _row(run: Run) -> tuple[object, ...]:
    setting, told = run["setting"], run["scores"]
    names = [setting[key] for key in ("family", "policy", "known", "faults", "kit")]
    shares = [_percent(told[key]) for key in ("first", "first_three", "found", "needless")]
    of_found = told["median_checks_of_found"]
    return (
        *names,
        told["sets"],
        *shares,
        _number(told["checks"], 1),
        "-" if of_found is None else f"{of_found:g}",
        f"{told['floor']['capacity']:.1f}",
        _number(told["minutes"], 0),
        _number(told["brier"], 2),
    )


def _percent(figure: dict[str, float]) -> str:
    return _number({key: 100 * figure[key] for key in ("at", "low", "high")}, 0)


def _number(figure: dict[str, float], places: int) -> str:
    at, low, high = (f"{figure[key]:.{places}f}" for key in ("at", "low", "high"))
    return f"{at} ({low}-{high})"
