"""Setting up in words: why a step is there, what is wanted, what a reading says."""

from collections.abc import Iterator, Mapping, Sequence

from engine.diagnosis.model import SetModel
from engine.radio.figures import shown, three
from engine.setting_up.guiding import Standing
from engine.setting_up.reach import Reason
from engine.setting_up.sheet import Step
from engine.setting_up.verdict import Held

DEFER = (
    "Adjusting a transmitter is for those whom the local rules allow to do it, into a dummy load. "
    "The only aim is to bring the set back within its rules. The set's own sheet goes first."
)
STATES = {
    "to-do": "to do",
    "again": "do it again",
    "off": "OFF: turn it further",
    "over": "OVER THE LIMIT: turn it back",
    "missing": "not all of it was read",
    "stuck": "will not come right",
    "not-needed": "not needed: nothing that moves it was turned",
    "left-out": "left out",
    "holds": "holds",
    "cannot-tell": "cannot tell",
}


def reason_words(model: SetModel, reason: Reason) -> str:
    """Return why an adjustment is looked at; empty where the whole set is gone through."""
    by = "; ".join(name_of(model, one) for one in reason.by)
    return {
        "everything": "",
        "itself": "it was put right or turned itself",
        "moved": f"moved by what was done at: {by}",
        "if-turned": f"only if one of these had to be turned: {by}",
        "looked-through": f"it was set before this, which comes first, was right: {by}",
    }[reason.kind]


def name_of(model: SetModel, cause: str) -> str:
    """Return what an adjustment, or any other cause, is called."""
    text = model.setting_up
    if text is not None and cause in text.settings:
        return text.settings[cause].title
    return model.causes[cause].title


def wanted_words(step: Step) -> Iterator[str]:
    """Yield what is wanted, one for each thing: `channel 20: 3.3 V ± 0.3 V`."""
    for wanted in step.wanted:
        yield f"{wanted.at}: {wanted.said}" if wanted.at else wanted.said


def together_words(model: SetModel, step: Step) -> str:
    """Return how several are set in turn; empty for an adjustment that stands alone."""
    if not step.together:
        return ""
    if not step.visits:
        names = "; ".join(name_of(model, one) for one in step.together)
        return f"In turn until all hold and none was turned since: {names}"
    names = ", then ".join(name_of(model, one) for one in step.visits)
    return f"In turn, {len(step.visits)} visits as a rule: {names}"


def numbers_of(names: Sequence[str], steps: Mapping[str, Step]) -> str:
    """Return the steps of some adjustments as `3 (Reference trimmer)`, those on the sheet."""
    found = sorted((steps[name] for name in names if name in steps), key=lambda s: s.number)
    return "; ".join(f"{step.number} ({step.title})" for step in found)


def held_words(held: Held) -> str:
    """Return what was read of one thing wanted, and what that says."""
    entry = held.in_words or held.entry
    read = [f"before {entry.before}" if entry.before else "", entry.after]
    told = " -> ".join(part for part in read if part) or "-"
    return f"{told}: {STATES[held.verdict]}{_because(held)}"


def _because(held: Held) -> str:
    """Return why a reading holds or not, where that is more than the word."""
    if held.limit is not None and held.limit.verdict == "beyond":
        return f"; the limit is {shown(held.limit.bound)} {held.limit.unit}"
    if held.verdict == "missing":
        return ""
    unit = held.wanted.unit
    if held.verdict == "off" and held.wanted.low is not None and held.wanted.high is not None:
        ends = " to ".join(_short(end) for end in (held.wanted.low, held.wanted.high))
        return f"; wanted {ends} {unit}"
    if held.verdict == "off" and held.wanted.answer == "best" and held.before:
        return "; it read better before"
    if held.verdict != "cannot-tell" or held.guard == 0.0:
        return ""
    return f"; this instrument is good to ±{three(held.guard)} {unit}{_needed(held)}"


def _short(value: float) -> str:
    """Return a number to three figures, without noughts behind them.

    >>> [_short(value) for value in (-4.8828125, 8.0)]
    ['-4.88', '8']
    """
    return shown(float(f"{value:.3g}"))


def _needed(held: Held) -> str:
    """Return what accuracy would tell."""
    if held.limit is not None and held.limit.verdict == "cannot-tell" and held.limit.needed:
        return f", ±{three(held.limit.needed)} {held.limit.unit} would tell"
    low, high = held.wanted.low, held.wanted.high
    if low is None or high is None:
        return ""
    return f", ±{three((high - low) / 2.0)} {held.wanted.unit} would tell"


def standing_words(model: SetModel, standing: Standing) -> str:
    """Return where a step stands, and why it must be done again."""
    why = reason_words(model, standing.reason) if standing.reason is not None else ""
    if standing.state in ("again", "to-do") and why:
        return f"{STATES[standing.state]}: {why}"
    return STATES[standing.state]
