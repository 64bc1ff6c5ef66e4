"""One set on the bench, from what its owner says to the verdict."""

from dataclasses import dataclass, replace

from engine.assessing.capacity import capacity_bits
from engine.assessing.faulty_set import FaultySet, Way
from engine.assessing.manual import Manual
from engine.assessing.moments import Moment
from engine.assessing.policies import POLICIES, looked_at
from engine.assessing.tally import NOTHING, Tally, tallied
from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.effort import effort
from engine.diagnosis.advising.steps import Step, mendable
from engine.diagnosis.case import Case, Kit, add_finding
from engine.diagnosis.evidence import is_usual
from engine.diagnosis.model import SetModel

MOST_CHECKS = 25
GOOD_NEWS = 3  # symptoms that are not there, which an owner mentions beside those that are
STOPS = {"act", "no-check-left", "nothing-wrong", "not-in-knowledge"}
REPORTS = ("complaint", "asked")


@dataclass(frozen=True, slots=True)
class Plan:
    """How to work.

    `report` is what the owner tells: a `complaint` names every symptom noticed and a few that are
    not there; `asked` answers every symptom of the list, so that silence hides nothing.
    """

    policy: str  # of `POLICIES`
    kit: Kit
    report: str = "complaint"
    most_checks: int = MOST_CHECKS


@dataclass(frozen=True, slots=True)
class Trial:
    """What came of one set. Ranks count from 1 and leave out events: nobody can repair those."""

    there: tuple[Way, ...]
    symptoms: int  # how many the owner reported
    ranks: tuple[int, ...] = ()  # of the true cause ranked best, after 0, 1, 2 ... checks
    leader: str = ""
    leader_way: str = ""
    probability: float = 0.0  # of the leader
    minutes: float = 0.0  # of effort
    verdict: str = ""
    clashes: int = 0
    bits_at_first: float = 0.0  # what is not known of the causes after the report
    bits_at_last: float = 0.0
    bits_on_offer: float = 0.0  # by the best check, summed over the checks made
    bits_possible: float = 0.0  # the most the checks made can tell of anything, summed
    along: Tally = NOTHING  # every chance that was told, after every step
    at_end: Tally = NOTHING
    answers: tuple[tuple[str, str], ...] = ()  # check, what was said; the owner's report first

    @property
    def checks(self) -> int:
        """How many checks were made."""
        return len(self.ranks) - 1

    @property
    def is_first(self) -> bool:
        """Whether what leads at the end is there."""
        return self.ranks[-1] == 1

    @property
    def first_after(self) -> int:
        """Return after how many checks a true cause led and stayed in front."""
        later = [number for number, rank in enumerate(self.ranks, start=1) if rank != 1]
        return later[-1] if later else 0

    @property
    def block_right(self) -> bool:
        """Whether the leading cause is in the block of a true one."""
        blocks = {cause.partition(".")[0] for cause, _ in self.there}
        return self.leader.partition(".")[0] in blocks


def run_trial(model: SetModel, manual: Manual, bench: FaultySet, plan: Plan) -> Trial:
    """Let the owner report, then make one check after the other until a verdict.

    `model` is what the tool believes; the set answers as it truly is.
    """
    case = reported(model, Case(model.family.id, plan.kit), bench, plan.report)
    symptoms = sum(not is_usual(bench.model, finding) for finding in case.findings)
    few = looked_at(plan.policy)
    answer = step(model, case, few, is_doubting=False)
    trial = _after(Trial(bench.there, symptoms, bits_at_first=answer.entropy_bits), answer)
    while answer.verdict.kind not in STOPS and trial.checks < plan.most_checks:
        name = POLICIES[plan.policy](Moment(model, manual, case, answer, bench.seed))
        if name is None:
            break
        trial = _spent(trial, model, case, answer, name)
        case = add_finding(case, bench.answer(name))
        answer = step(model, case, few, is_doubting=False)
        trial = _after(trial, answer)
    said = tuple((finding.check, finding.said) for finding in case.findings)
    end = tallied(answer, trial.there)
    return replace(trial, verdict=answer.verdict.kind, answers=said, at_end=end)


def reported(model: SetModel, case: Case, bench: FaultySet, report: str = "complaint") -> Case:
    """Return the case with what the owner tells of what makes sense, as `Plan.report` says."""
    asked = (name for name in model.symptoms if bench.makes_sense(bench.model.checks[name]))
    said = [bench.answer(name) for name in asked]
    if report == "complaint":
        bad = [finding for finding in said if not is_usual(bench.model, finding)]
        good = [finding for finding in said if is_usual(bench.model, finding)]
        dice = bench.dice("good news")
        said = [*bad, *dice.sample(good, min(GOOD_NEWS, len(good)))]
    for finding in said:
        case = add_finding(case, finding)
    return case


def _spent(trial: Trial, model: SetModel, case: Case, answer: Step, name: str) -> Trial:
    """Return the trial with what a check costs, could tell at most, and what the best would."""
    check = model.checks[name]
    return replace(
        trial,
        minutes=trial.minutes + effort(model, case)(check),
        bits_on_offer=trial.bits_on_offer + (answer.checks[0].gain_bits if answer.checks else 0.0),
        bits_possible=trial.bits_possible + capacity_bits(model, name),
    )


def _after(trial: Trial, answer: Step) -> Trial:
    """Return the trial with what one step says of the true causes."""
    ranked = mendable(answer.causes)
    there = {cause for cause, _ in trial.there}
    rank = next((n for n, each in enumerate(ranked, start=1) if each.id in there), 0)
    return replace(
        trial,
        ranks=(*trial.ranks, rank),
        leader=ranked[0].id,
        leader_way=max(ranked[0].ways, key=lambda pair: pair[1])[0],
        probability=ranked[0].probability,
        clashes=trial.clashes + bool(answer.clash),
        bits_at_last=answer.entropy_bits,
        along=trial.along + tallied(answer, trial.there),
    )
