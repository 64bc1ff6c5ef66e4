"""The few questions that tell most together, for the owner of a set who is somewhere else.

A message goes to and fro once, so questions are chosen as a set: what matters is what all answers
together tell about the causes, and a second question about the same thing adds little.

References:
    Krause & Guestrin, Near-optimal nonmyopic value of information in graphical models, UAI 2005.
    Nemhauser, Wolsey & Fisher, Mathematical Programming 14 (1978) 265-294.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from operator import mul

from engine.diagnosis.advising.conflict import possible_part
from engine.diagnosis.case import Case, Finding
from engine.diagnosis.evidence import calibrated, likelihoods
from engine.diagnosis.messages.owners_checks import for_the_owner
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.repairing.present import present
from engine.inference.gain import information_gain
from engine.inference.likelihoods import Likelihoods, sure, times
from engine.inference.past import calibrate

MOST = 3  # questions; more are not answered
WORTH_BITS = 0.05  # a further question that adds less is not worth its lines
NEARLY = 0.8  # of those that add at least this share of the best, the quickest is asked
NEGLIGIBLE = 1e-4  # states less likely than that are left out of what a question may find
Column = tuple[float, ...]  # P(one outcome | state), shape (states,)


@dataclass(frozen=True, slots=True)
class Questions:
    """Checks to ask for, in the order chosen; `adds_bits` is what each adds to those before it."""

    checks: tuple[str, ...]
    adds_bits: tuple[float, ...]

    @property
    def bits(self) -> float:
        """What all answers together tell about the causes."""
        return sum(self.adds_bits)


@dataclass(frozen=True, slots=True)
class _World:
    """The signals asked about so far in one state each; `chance` is that of these states."""

    chance: float
    states: Mapping[str, int]
    beliefs: Mapping[str, Sequence[float]]  # signal -> P(state | findings, `states`)


def asking_back(
    model: SetModel, case: Case, left_out: Iterable[str] = (), most: int = MOST
) -> Questions:
    """Return up to `most` questions that together tell most of what their number can tell.

    Each next question is one that adds nearly the most to those before it, averaged over all their
    answers. Given the causes the answers are independent, so that what a set tells has diminishing
    returns, and choosing so gives at least 1 - e ** -NEARLY, 55 %, of the best set of that many;
    1 - 1/e, 63 %, wherever the quickest is the best as well.
    """
    now = present(model, case)
    model, told, _ = now
    findings, _ = possible_part(model, told)
    open_ = for_the_owner(now, case, calibrated(model, findings), frozenset(left_out))
    worlds = [_world(model, findings, 1.0, {}, open_)]
    branches: list[list[float]] = [[1.0]]  # P(answers so far | world), one list for all answers
    chosen: list[tuple[str, float]] = []
    while open_ and len(chosen) < most:
        adds = expected_gains(worlds, branches, open_)
        best = max(adds.values())
        if (chosen and best < WORTH_BITS) or best <= 0.0:
            break
        quick = [check for check in open_ if adds[check.id] >= NEARLY * best]
        check = min(quick, key=lambda each: (each.minutes, -round(adds[each.id], 9), each.id))
        chosen.append((check.id, adds[check.id]))
        open_ = [each for each in open_ if each.id != check.id]
        if len(chosen) < most:
            worlds, parents = _split(model, findings, worlds, check, open_)
            branches = _answered(branches, parents, worlds, check)
    return Questions(tuple(name for name, _ in chosen), tuple(bits for _, bits in chosen))


def expected_gains(
    worlds: Sequence[_World], branches: Sequence[Sequence[float]], checks: Iterable[CheckText]
) -> dict[str, float]:
    """Return by check what it adds, in bits: its gain after each run of answers, averaged."""
    checks = list(checks)
    total = dict.fromkeys((check.id for check in checks), 0.0)
    for branch in branches:
        weights = [world.chance * chance for world, chance in zip(worlds, branch, strict=True)]
        p_answers = sum(weights)
        if p_answers <= 0.0:
            continue
        mixed: dict[str, list[float]] = {}
        for check in checks:
            if check.looks_at not in mixed:
                mixed[check.looks_at] = _mixed(worlds, weights, p_answers, check.looks_at)
            gain_bits = information_gain(mixed[check.looks_at], check.channel)
            total[check.id] += p_answers * gain_bits
    return total


def _mixed(
    worlds: Sequence[_World], weights: Sequence[float], p_answers: float, signal: str
) -> list[float]:
    """Return P(state of a signal | answers), mixed from what it is in each world."""
    rows = [world.beliefs[signal] for world in worlds]
    return [sum(map(mul, weights, column)) / p_answers for column in zip(*rows, strict=True)]


def _world(
    model: SetModel,
    findings: tuple[Finding, ...],
    chance: float,
    states: Mapping[str, int],
    checks: Iterable[CheckText],
) -> _World:
    """Return a world: one pass with the signals held in their states."""
    held: Likelihoods = likelihoods(model, findings)
    for signal, state in states.items():
        held = times(held, {signal: sure(model.tree.states[signal], state)})
    calibration = calibrate(model.tree, held)
    signals = sorted({check.looks_at for check in checks})
    return _World(chance, states, {name: calibration.posterior(name) for name in signals})


def _split(
    model: SetModel,
    findings: tuple[Finding, ...],
    worlds: Sequence[_World],
    asked: CheckText,
    checks: Sequence[CheckText],
) -> tuple[list[_World], list[int]]:
    """Return the worlds with what `asked` looks at in each of its states, and whence each came."""
    made: list[_World] = []
    parents: list[int] = []
    for number, world in enumerate(worlds):
        beliefs = world.beliefs[asked.looks_at]
        likely = [(state, p) for state, p in enumerate(beliefs) if p > NEGLIGIBLE]
        kept = sum(p for _, p in likely)
        for state, p in likely:
            states = {**world.states, asked.looks_at: state}
            chance = world.chance * p / kept
            is_new = asked.looks_at not in world.states
            made.append(_world(model, findings, chance, states, checks) if is_new else world)
            parents.append(number)
    return made, parents


def _answered(
    branches: Sequence[Sequence[float]],
    parents: Sequence[int],
    worlds: Sequence[_World],
    asked: CheckText,
) -> list[list[float]]:
    """Return P(answers | world) for all runs of answers, one answer longer than `branches`."""
    states = [world.states[asked.looks_at] for world in worlds]
    columns = columns_of(asked)
    return [
        [branch[parent] * column[state] for parent, state in zip(parents, states, strict=True)]
        for branch in branches
        for column in columns
    ]


def columns_of(check: CheckText) -> list[Column]:
    """Return P(outcome | state) of each outcome.

    Of a reading, cells of its span that speak alike to a hundredth are taken as one outcome.
    """
    columns: list[Column] = list(zip(*check.channel.rows, strict=True))
    if check.meter is None:
        return columns
    alike: dict[Column, Column] = {}
    for column in columns:
        total = sum(column)
        if total > 0.0:
            key = tuple(round(p / total, 2) for p in column)
            before = alike.get(key, (0.0,) * len(column))
            alike[key] = tuple(a + b for a, b in zip(before, column, strict=True))
    return list(alike.values())
