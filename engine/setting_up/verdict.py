"""Whether what was set holds, as far as the instruments can tell.

A limit of the rules is held with a guard band of twice the standard uncertainty, as in a proof. A
tolerance is good practice and no rule, so the value itself is held to it; but an instrument whose
error is wider than the tolerance cannot tell. A best place, and readings that are to be alike, are
compared with each other: the error of one instrument is in both and hardly counts.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import log10
from typing import Literal

from engine.diagnosis.case import CANNOT_CHECK, Kit
from engine.diagnosis.entry import CANNOT_WORDS, read_answer
from engine.diagnosis.judging import COVERAGE, Judgement, judge
from engine.diagnosis.model import SetModel
from engine.diagnosis.settings import WantedText
from engine.errors import UnknownReading
from engine.radio.units import unit_of
from engine.setting_up.limiting import limit_of
from engine.setting_up.reading import Bench, Value, read_value, read_values
from engine.setting_up.sheet import Step

Verdict = Literal["holds", "cannot-tell", "missing", "off", "over"]
WORST_FIRST: tuple[Verdict, ...] = ("over", "off", "missing", "cannot-tell", "holds")
YES = {"yes": True, "y": True, "no": False, "n": False}
LEAST = 1e-12  # a level that cannot be seen, beside one that can


@dataclass(frozen=True, slots=True)
class Entry:
    """What was entered at one thing wanted, as typed; empty where nothing was.

    `before` is as it was found. Without an `after`, or with the same, nothing was turned.
    """

    before: str = ""
    after: str = ""


@dataclass(frozen=True, slots=True)
class Held:
    """One thing wanted, what was read of it, and what that says.

    `limit` is set where a limit of the rules was looked at. `guard` is twice the standard
    uncertainty of the value that counts, the one after, else the one before. `in_words` is the
    entry by the titles of its answers, where it was one of several.
    """

    wanted: WantedText
    entry: Entry
    verdict: Verdict
    before: tuple[Value, ...] = ()
    after: tuple[Value, ...] = ()
    limit: Judgement | None = None
    guard: float = 0.0
    in_words: Entry | None = None

    @property
    def is_changed(self) -> bool:
        """Whether something was read after that is not what was read before."""
        if not self.entry.after:
            return False
        if self.before and self.after:
            return [one.value for one in self.before] != [one.value for one in self.after]
        return self.entry.after.strip().lower() != self.entry.before.strip().lower()


@dataclass(frozen=True, slots=True)
class StepVerdict:
    """A step with everything wanted of it; the worst of its verdicts is its own."""

    step: Step
    rows: tuple[Held, ...]
    verdict: Verdict

    @property
    def is_turned(self) -> bool:
        """Whether the adjustment was turned to any effect: something reads otherwise after."""
        return any(row.is_changed for row in self.rows)


def verdict(model: SetModel, kit: Kit, step: Step, entries: Sequence[Entry]) -> StepVerdict:
    """Return whether a step holds.

    Args:
        model: the kind of set.
        kit: what was measured with; accuracies that it does not tell are the usual ones.
        step: one of `steps`.
        entries: one for each thing wanted, in order; those left out are missing.

    Returns:
        The verdict with one row for each thing wanted: `holds`; `off`, turn it further; `over`,
        beyond a limit of the rules for certain; `cannot-tell` with these instruments; `missing`.

    Raises:
        UnknownReading: something entered is no reading of what is wanted.
    """
    bench = Bench(model, kit)
    filled = [*entries, *(Entry() for _ in step.wanted[len(entries) :])]
    rows = tuple(
        _row(bench, step, wanted, entry) for wanted, entry in zip(step.wanted, filled, strict=True)
    )
    return StepVerdict(step, rows, next(v for v in WORST_FIRST if v in {r.verdict for r in rows}))


def _row(bench: Bench, step: Step, wanted: WantedText, entry: Entry) -> Held:
    if not entry.before and not entry.after:
        return Held(wanted, entry, "missing")
    return ROWS[wanted.answer](bench, step, wanted, entry)


def _number(bench: Bench, step: Step, wanted: WantedText, entry: Entry) -> Held:
    """Return a number held to its two ends, and to a limit of the rules."""
    before, after = (_values(bench, step, wanted, one) for one in (entry.before, entry.after))
    (value,) = after or before
    guard = COVERAGE * value.sd
    limit = limit_of(bench.model, wanted, step.rules)
    judged = judge(limit, value.value, value.sd) if limit is not None else None
    row = Held(wanted, entry, "holds", before, after, judged, guard)
    return replace(row, verdict=_of_number(wanted, value.value, guard, judged))


def _of_number(wanted: WantedText, value: float, guard: float, limit: Judgement | None) -> Verdict:
    low, high = wanted.low, wanted.high
    assert low is not None, wanted.said
    assert high is not None, wanted.said
    if limit is not None and limit.verdict == "beyond":
        return "over"
    outside = max(low - value, value - high)
    is_too_coarse = guard > (high - low) / 2.0
    if is_too_coarse and outside <= guard:
        return "cannot-tell"
    if outside > 0.0:
        return "off"
    return "cannot-tell" if limit is not None and limit.verdict == "cannot-tell" else "holds"


def _best(bench: Bench, step: Step, wanted: WantedText, entry: Entry) -> Held:
    """Return a best place: after turning it is no worse than before."""
    before, after = (_values(bench, step, wanted, one) for one in (entry.before, entry.after))
    row = Held(wanted, entry, "missing", before, after)
    if not after:
        return row
    if before and before[0].unit != after[0].unit:
        raise UnknownReading(
            step.id,
            f"'{entry.before}' before and '{entry.after}' after",
            "both in one unit",
            "Read both with the same instrument, on the same range.",
        )
    gain = after[0].value - before[0].value if before else 0.0
    is_worse = gain > 0.0 if wanted.goes_down else gain < 0.0
    return replace(row, verdict="off" if is_worse else "holds")


def _spread(bench: Bench, step: Step, wanted: WantedText, entry: Entry) -> Held:
    """Return several readings that are to be alike."""
    assert wanted.spread_db is not None, wanted.said
    before = read_values(bench, step, wanted, entry.before) if entry.before else ()
    after = read_values(bench, step, wanted, entry.after) if entry.after else ()
    apart_db = _apart_db([value.value for value in after or before], wanted.unit)
    return Held(wanted, entry, "holds" if apart_db <= wanted.spread_db else "off", before, after)


def _apart_db(values: Sequence[float], unit: str) -> float:
    """Return how many decibels lie between the largest and the smallest of several readings."""
    base = unit_of(unit)
    assert base is not None, unit
    if base.base == "dB":
        return max(values) - min(values)
    times = 10.0 if base.base == "W" else 20.0
    return times * log10(max(max(values), LEAST) / max(min(values), LEAST))


def _outcome(bench: Bench, step: Step, wanted: WantedText, entry: Entry) -> Held:
    """Return an outcome of the check: the one that a right set most likely gives."""
    check = bench.model.checks[wanted.check or step.setting.check]
    before, after = (
        str(read_answer(bench.model, check.id, text).outcome) if text else ""
        for text in (entry.before, entry.after)
    )
    told = Entry(*(check.outcomes.get(outcome, outcome) for outcome in (before, after)))
    outcome = after or before
    verdict: Verdict = "holds" if outcome == check.likeliest() else "off"
    if outcome == CANNOT_CHECK:
        verdict = "cannot-tell"
    return Held(wanted, entry, verdict, in_words=told)


def _yes(bench: Bench, step: Step, wanted: WantedText, entry: Entry) -> Held:
    """Return what is answered by yes or no."""
    for text in entry_texts(entry):
        if text.strip().lower() not in {*YES, *CANNOT_WORDS}:
            raise UnknownReading(
                step.id, f"'{text}'", "yes or no", f"Answer whether it holds: {wanted.said}."
            )
    last = entry_texts(entry)[-1].strip().lower()
    if last not in YES:
        return Held(wanted, entry, "cannot-tell")
    return Held(wanted, entry, "holds" if YES[last] else "off")


def entry_texts(entry: Entry) -> list[str]:
    """Return what was entered, before and after, without what was left empty."""
    return [text for text in (entry.before, entry.after) if text]


def _values(bench: Bench, step: Step, wanted: WantedText, text: str) -> tuple[Value, ...]:
    return (read_value(bench, step, wanted, text),) if text else ()


ROWS: dict[str, Callable[[Bench, Step, WantedText, Entry], Held]] = {
    "number": _number,
    "best": _best,
    "spread": _spread,
    "outcome": _outcome,
    "yes": _yes,
}
