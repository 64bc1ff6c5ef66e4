"""One set on the bench, from what its owner says to the verdict."""

from dataclasses import dataclass, replace
from random import Random

from engine.diagnosis.advice import step
from engine.diagnosis.case import Case, Kit, add_finding
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.diagnosis.steps import ORDERS, RankedCause, Step
from engine.inference.network import Network
from tests.bench.faulty_set import FaultySet, faulty_set, usual

MOST_CHECKS = 25
FEW = 3  # checks to look at in full: only the best is made
GOOD_NEWS = 3  # symptoms that are not there, which an owner mentions beside those that are
STOPS = {"act", "no-check-left", "nothing-wrong", "not-in-knowledge"}


@dataclass(frozen=True, slots=True)
class Plan:
    """How to work: which checks come first, with what in the kit, and the seed of the dice."""

    policy: str  # an order of checks: worth, gain, minutes
    kit: Kit
    seed: int


@dataclass(frozen=True, slots=True)
class Trial:
    """What came of one set. Ranks count from 1 and leave out events: nobody can repair those."""

    cause: str
    way: str
    kind: str
    prior: float
    symptoms: int  # how many the owner reported
    rank: int = 0
    probability: float = 0.0
    leader: str = ""
    leader_way: str = ""
    checks: int = 0
    first_after: int = 0  # checks after which the true cause led and stayed in front
    minutes: float = 0.0  # of effort
    verdict: str = ""
    clashes: int = 0
    answers: tuple[tuple[str, str], ...] = ()  # check, what was said; the owner's report first

    @property
    def block_right(self) -> bool:
        """Whether the leading cause is in the block of the true one."""
        return self.leader.partition(".")[0] == self.cause.partition(".")[0]


def run_trial(model: SetModel, network: Network, cause: str, plan: Plan) -> Trial:
    """Put a set into a state, let the owner report, then make the best check until a verdict."""
    dice = Random(f"{plan.seed} {cause}")
    way = drawn_way(model, cause, dice)
    bench = faulty_set(model, network, cause, way, dice)
    case = reported(model, Case(model.family.id, plan.kit), bench)
    symptoms = sum(not usual(model, finding) for finding in case.findings)
    kind, prior = model.causes[cause].kind, model.causes[cause].prior
    answer = step(model, case, FEW)
    trial = _after(Trial(cause, way, kind, prior, symptoms), answer)
    while answer.verdict.kind not in STOPS and trial.checks < MOST_CHECKS:
        check = ORDERS[plan.policy](answer)[0]
        case = add_finding(case, bench.answer(check.id))
        answer = step(model, case, FEW)
        minutes = trial.minutes + check.effort_min
        trial = _after(replace(trial, checks=trial.checks + 1, minutes=minutes), answer)
    said = tuple((finding.check, finding.said) for finding in case.findings)
    return replace(trial, verdict=answer.verdict.kind, answers=said)


def drawn_way(model: SetModel, cause: str, dice: Random) -> str:
    """Return one of the ways of a cause, drawn by its share of the prior."""
    shares = calibrated(model, ()).posterior(cause)[1:]
    return dice.choices(list(model.causes[cause].ways), shares)[0]


def reported(model: SetModel, case: Case, bench: FaultySet) -> Case:
    """Return the case with every symptom the owner noticed, and a few that are not there."""
    said = [bench.answer(name) for name in model.symptoms]
    bad = [finding for finding in said if not usual(model, finding)]
    good = [finding for finding in said if usual(model, finding)]
    for finding in [*bad, *bench.dice.sample(good, min(GOOD_NEWS, len(good)))]:
        case = add_finding(case, finding)
    return case


def _after(trial: Trial, answer: Step) -> Trial:
    """Return the trial with what one step says of the true cause."""
    ranked: list[RankedCause] = [each for each in answer.causes if each.kind != "event"]
    rank = next(n for n, each in enumerate(ranked, start=1) if each.id == trial.cause)
    stayed = rank == 1 and trial.rank == 1
    return replace(
        trial,
        rank=rank,
        probability=ranked[rank - 1].probability,
        leader=ranked[0].id,
        leader_way=max(ranked[0].ways, key=lambda pair: pair[1])[0],
        first_after=trial.first_after if stayed else trial.checks,
        clashes=trial.clashes + bool(answer.clash),
    )
