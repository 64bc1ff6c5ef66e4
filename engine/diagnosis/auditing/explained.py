"""Symptoms that hang on one cause, and causes that no owner would notice."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine.diagnosis.auditing.informing import FLOOR_BITS, told_between
from engine.diagnosis.auditing.single import Audited
from engine.diagnosis.model import CheckText


@dataclass(frozen=True, slots=True)
class Explained:
    """A symptom that no cause, or one cause only, brings about by itself."""

    symptom: str
    causes: tuple[str, ...]


def is_shown(check: CheckText, state: int) -> bool:
    """Say whether a state makes something else than in a set in order noticeably likelier.

    >>> from types import SimpleNamespace as Some
    >>> check = Some(channel=Some(rows=((0.1, 0.9), (0.15, 0.85), (0.6, 0.4), (0.01, 0.99))))
    >>> [is_shown(check, state) for state in range(4)]
    [False, False, True, False]
    """
    in_order, row = check.channel.rows[0], check.channel.rows[state]
    usual = in_order.index(max(in_order))
    return row[usual] < in_order[usual] and told_between(check, 0, state) >= FLOOR_BITS


def top_states(check: CheckText) -> tuple[int, ...]:
    """Return the states that make a symptom likelier than not, else all that it shows.

    >>> from types import SimpleNamespace as Some
    >>> top_states(Some(channel=Some(rows=((0.1, 0.9), (0.4, 0.6), (0.8, 0.2)))))
    (2,)
    >>> top_states(Some(channel=Some(rows=((0.01, 0.99), (0.45, 0.55)))))
    (1,)
    """
    rows = check.channel.rows
    usual = rows[0].index(max(rows[0]))
    shown = tuple(state for state in range(1, len(rows)) if is_shown(check, state))
    return tuple(state for state in shown if rows[state][usual] < 0.5) or shown


def hardly_explained(seen: Audited) -> Iterator[Explained]:
    """Yield the symptoms that fewer than two listed causes explain, in order of the knowledge."""
    for check in _symptoms(seen):
        found = {
            cause: None
            for (cause, _), truth in seen.truths.items()
            if is_shown(check, truth[check.looks_at])
        }
        if len(found) < 2:
            yield Explained(check.id, tuple(found))


def unnoticed_causes(seen: Audited) -> Iterator[str]:
    """Yield the causes of which no way changes any symptom, in order of the knowledge."""
    symptoms = _symptoms(seen)
    noticed = {
        cause
        for (cause, _), truth in seen.truths.items()
        if any(told_between(c, 0, truth[c.looks_at]) >= FLOOR_BITS for c in symptoms)
    }
    yield from dict.fromkeys(cause for cause, _ in seen.truths if cause not in noticed)


def _symptoms(seen: Audited) -> list[CheckText]:
    return [check for check in seen.checks.values() if check.kind == "symptom"]
