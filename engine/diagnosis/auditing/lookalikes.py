"""What looks like one way of a cause to the owner, and which checks tell it from that."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import mul

from engine.diagnosis.advising.consequences import Risen as Risen
from engine.diagnosis.advising.consequences import in_way, risen
from engine.diagnosis.advising.parting import parted
from engine.diagnosis.advising.presuming import proposable
from engine.diagnosis.auditing.consequences import harms
from engine.diagnosis.auditing.single import Truth, alone
from engine.diagnosis.case import Finding
from engine.diagnosis.evidence import calibrated, is_usual, likelihoods
from engine.diagnosis.making.building import build_network
from engine.diagnosis.making.texts import check_texts
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.gain import information_gain
from engine.inference.past import calibrate
from engine.inference.propagation import Calibration
from engine.knowledge.library import Library

EVEN = (0.5, 0.5)
RIVALS = 6
TELLING = 8
WORTH_BITS = 0.01  # a check that tells less is not worth a line

Checks = Mapping[str, CheckText]


@dataclass(frozen=True, slots=True)
class Lookalikes:
    """A set with one thing wrong, as its owner tells of it, and what that may be.

    Every symptom is answered as such a set most likely shows it; `told` are the answers that a set
    in order would not give. `chance` is that of this way after them all, `rivals` are the likeliest
    other causes. `telling` are the checks of a full kit, with the bits each then tells between
    this way and all else: at even odds, so that a rare cause is told from common ones as well.
    """

    told: tuple[Finding, ...]
    chance: float
    rivals: tuple[tuple[str, float], ...]
    telling: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class OfOneWay:
    """A way of a cause: its prior, the signals it harms with their states, symptoms, rivals."""

    way: str
    prior: float
    harms: tuple[tuple[str, str], ...]
    symptoms: tuple[Risen, ...]
    alike: Lookalikes


def ways_of(library: Library, model: SetModel, cause: str) -> tuple[OfOneWay, ...]:
    """Return all that follows from each way of a cause, by the network."""
    family = library.families[model.family.id]
    net = build_network(library, family)
    checks = check_texts(library, family, {b: library.blocks[b] for b in family.blocks}, net)
    found = []
    for number, way in enumerate(model.causes[cause].ways, start=1):
        truth = alone(net, cause, way)
        prior = calibrated(model, ()).posterior(cause)[number]
        harmed, shown = tuple(harms(model, net, truth)), risen(model, cause, number)
        alike = _lookalikes(model, checks, truth, cause, number)
        found.append(OfOneWay(way, prior, harmed, shown, alike))
    return tuple(found)


def _lookalikes(model: SetModel, checks: Checks, truth: Truth, cause: str, way: int) -> Lookalikes:
    account = tuple(_answers(model, truth))
    now = calibrated(model, account)
    return Lookalikes(
        tuple(one for one in account if not is_usual(model, one)),
        now.posterior(cause)[way],
        _rivals(model, now, cause),
        _telling(model, checks, account, cause, way),
    )


def _answers(model: SetModel, truth: Truth) -> Iterator[Finding]:
    """Yield every symptom with what such a set most likely shows."""
    for name in model.symptoms:
        check = model.checks[name]
        outcome = check.likeliest(truth[check.looks_at])
        yield Finding(name, outcome, None, outcome)


def _rivals(model: SetModel, now: Calibration, cause: str) -> tuple[tuple[str, float], ...]:
    chances = [
        (other.id, 1.0 - now.posterior(other.id)[0])
        for other in model.causes.values()
        if other.id != cause and other.kind != "event"
    ]
    return tuple(sorted(chances, key=lambda row: (-round(row[1], 9), row[0]))[:RIVALS])


def _telling(
    model: SetModel, checks: Checks, account: Sequence[Finding], cause: str, way: int
) -> tuple[tuple[str, float], ...]:
    """Return the sensible checks that tell most about a way.

    `checks` are as their authors wrote them: a frequency reading by the signal it looks at.
    """
    held = likelihoods(model, account)
    before = held.get(cause, [1.0] * (1 + len(model.causes[cause].ways)))
    sure = list(map(mul, before, in_way(model, cause, way)))
    now, there = calibrated(model, tuple(account)), calibrate(model.tree, {**held, cause: sure})
    left = [check for check in checks.values() if check.kind != "symptom"]
    chance = now.posterior(cause)[way]
    gains = [(c.id, _between(chance, c, now, there)) for c in proposable(model, now, left)]
    best = sorted(gains, key=lambda row: (-round(row[1], 9), row[0]))[:TELLING]
    return tuple(row for row in best if row[1] >= WORTH_BITS)


def _between(chance: float, check: CheckText, now: Calibration, there: Calibration) -> float:
    """Return what a check tells between a way and all else that may be, at even odds, in bits."""
    if chance >= 1.0:
        return 0.0
    return information_gain(EVEN, parted(check, chance, now, there))
