"""Measures what weighing costs saves: python tests/bench/simulated_costs.py FAMILY. Not a test.

Sets with one fault, drawn by prior, are brought to an end twice: by the verdict, which says when
to act, and by the cheapest of repairing now and measuring on. Every check, look and repair is paid
for in minutes; a repair of the true cause always does it, after any other the owner tells the
symptoms again. Whoever stops without is charged the last resort.
"""

import argparse
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random
from statistics import mean, median

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.assessing.drawing import one_cause  # noqa: E402
from engine.assessing.faulty_set import FaultySet  # noqa: E402
from engine.assessing.trial import reported  # noqa: E402
from engine.diagnosis.advising.advice import step  # noqa: E402
from engine.diagnosis.advising.effort import effort  # noqa: E402
from engine.diagnosis.advising.steps import Step, proposed  # noqa: E402
from engine.diagnosis.case import Case, Repair, add_finding, full_kit, repaired  # noqa: E402
from engine.diagnosis.costing.weighing import weigh  # noqa: E402
from engine.diagnosis.costing.work import works  # noqa: E402
from engine.diagnosis.making.building import build_network  # noqa: E402
from engine.diagnosis.model import SetModel  # noqa: E402
from engine.knowledge.library import read_library  # noqa: E402
from engine.terminal.models import open_model  # noqa: E402
from tests.bench.simulated_bench import simulated_causes  # noqa: E402

MOST = 25  # checks and repairs
Act = tuple[str, str]  # "check", "repair" or "hand-over", and of what


@dataclass(frozen=True, slots=True)
class Run:
    """What it came to: minutes, checks made, repairs made in vain, whether it was put right."""

    minutes: float = 0.0
    checks: int = 0
    in_vain: int = 0
    is_right: bool = False


def by_verdict(_model: SetModel, _case: Case, now: Step) -> Act:
    """Measure until the verdict says to act, then repair what it names first."""
    if now.verdict.kind == "act":
        return "repair", now.verdict.causes[0]
    if now.verdict.kind in ("measure", "confirm") and now.checks:
        return "check", proposed(now)[0].id
    return "hand-over", ""


def by_costs(model: SetModel, case: Case, now: Step) -> Act:
    """Do what is cheapest; where neither a repair nor a check by itself is, go by the verdict."""
    costs = weigh(model, case, now)
    if costs is not None and costs.check_first is not None:
        return "check", costs.check_first.check
    if costs is None or not costs.attempts:
        return by_verdict(model, case, now)
    first = costs.attempts[0]
    return ("check", first.look.check) if first.look else ("repair", first.cause)


def run(model: SetModel, bench: FaultySet, policy: Callable[[SetModel, Case, Step], Act]) -> Run:
    """Bring one set to its end."""
    assert model.mending is not None
    case, done = reported(model, Case(model.family.id, full_kit(model)), bench), Run()
    told = [finding.check for finding in case.findings]
    while done.checks + done.in_vain < MOST:
        act, name = policy(model, case, step(model, case))
        if act == "hand-over":
            break
        if act == "check":
            minutes = done.minutes + effort(model, case)(model.checks[name])
            done = replace(done, minutes=minutes, checks=done.checks + 1)
            case = add_finding(case, bench.answer(name))
            continue
        work = works(model, model.mending, case, ())(model.causes[name])
        minutes = done.minutes + (work.minutes if work else model.mending.hand_over_min)
        bench = bench.put_right(name)
        if not bench.there:
            return replace(done, minutes=minutes, is_right=True)
        done = replace(done, minutes=minutes, in_vain=done.in_vain + 1)
        case = repaired(case, Repair(name, "replaced"))
        for check in told:
            case = add_finding(case, bench.answer(check))
    return replace(done, minutes=done.minutes + model.mending.hand_over_min)


def main() -> None:
    """Run both ways over the same sets and print what they came to."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("family", nargs="?", default="crystal-handheld", help="a kind of set")
    parser.add_argument("--most", type=int, default=40, metavar="N", help="sets")
    parser.add_argument("--seed", type=int, default=1, metavar="N", help="seed of the dice")
    args = parser.parse_args()
    model, library = open_model(ROOT / "kb", args.family), read_library(ROOT / "kb")
    assert model is not None, args.family
    network = build_network(library.of(args.family), library.families[args.family])
    names, dice = simulated_causes(model), Random(args.seed)
    causes = dice.choices(names, [model.causes[name].prior for name in names], k=args.most)
    rows: dict[str, list[Run]] = {"by verdict": [], "by costs": []}
    for number, cause in enumerate(causes):
        for name, policy in (("by verdict", by_verdict), ("by costs", by_costs)):
            bench = one_cause(model, network, cause, f"{args.seed} {number}")
            rows[name].append(run(model, bench, policy))
        print(number, cause, [round(each[-1].minutes) for each in rows.values()], flush=True)
    for name, runs in rows.items():
        print(name, summary(runs))


def summary(runs: Sequence[Run]) -> str:
    """Return the figures of one way in words."""
    right = mean(each.is_right for each in runs)
    minutes = [each.minutes for each in runs]
    return (
        f"{len(runs)} sets: right {100 * right:.1f} %, minutes mean {mean(minutes):.0f}, "
        f"median {median(minutes):.0f}; checks {mean(each.checks for each in runs):.1f}, "
        f"repairs in vain {mean(each.in_vain for each in runs):.2f} a set"
    )


if __name__ == "__main__":
    main()
