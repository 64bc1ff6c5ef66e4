"""Measures when to stop: python tests/bench/simulated_ending.py FAMILY. Not a test.

Sets with one cause each, drawn by prior, are checked with a small kit and the lid on, as in
simulated_bench.py. Every set goes on to act or to the last check; what the best checks would have
told about the causes that lead is kept at each step, so one run shows every place to stop.
"""

import argparse
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from random import Random
from statistics import fmean

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.assessing.drawing import one_cause  # noqa: E402
from engine.assessing.trial import STOPS, reported  # noqa: E402
from engine.diagnosis.advising.advice import step  # noqa: E402
from engine.diagnosis.advising.confirming import TELLS_BITS  # noqa: E402
from engine.diagnosis.advising.ending import about_leaders  # noqa: E402
from engine.diagnosis.advising.steps import mendable, proposed  # noqa: E402
from engine.diagnosis.case import Case, Finding, Kit, add_finding  # noqa: E402
from engine.diagnosis.making.building import build_network  # noqa: E402
from engine.diagnosis.model import SetModel  # noqa: E402
from engine.inference.network import Network  # noqa: E402
from engine.knowledge.library import read_library  # noqa: E402
from engine.terminal.models import open_model  # noqa: E402
from tests.bench.simulated_bench import FAMILY, simulated_causes  # noqa: E402

KITS = {
    "eyes": Kit(frozenset(), "on"),
    "meter": Kit(frozenset({"multimeter"}), "on"),
}
MOST_CHECKS = 22
LIMITS = (0.0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.15)

worker: dict[str, tuple[SetModel, Network]] = {}


@dataclass(frozen=True, slots=True)
class Moment:
    """A step of one set: the most a check tells about one leading cause, and the true cause."""

    told_bits: float
    rank: int
    probability: float
    effort_min: float


def main() -> None:
    """Run all sets with every kit and print what each place to stop would have cost."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("family", nargs="?", default=FAMILY, help="a kind of set")
    parser.add_argument("--sets", type=int, default=60, metavar="N", help="sets a kit")
    parser.add_argument("--seed", type=int, default=5, metavar="N", help="seed of the dice")
    args = parser.parse_args()
    library = read_library(ROOT / "kb")
    model = open_model(ROOT / "kb", args.family)
    assert model is not None, args.family
    network = build_network(library.of(args.family), library.families[args.family])
    causes = simulated_causes(model)
    priors = [model.causes[cause].prior for cause in causes]
    drawn = Random(args.seed).choices(causes, priors, k=args.sets)
    print(f"{args.family}, {args.sets} sets, seed {args.seed}, knowledge {model.version}")
    for title, kit in KITS.items():
        run = partial(moments, kit=kit, seed=args.seed)
        with ProcessPoolExecutor(initializer=_start, initargs=(model, network)) as pool:
            print_table(title, list(pool.map(run, drawn, range(args.sets))))
        sys.stdout.flush()


def _start(model: SetModel, network: Network) -> None:
    worker["set"] = model, network


def moments(cause: str, number: int, kit: Kit, seed: int) -> list[Moment]:
    """Return every step of one set until there is nothing to go on for."""
    model, network = worker["set"]
    bench = one_cause(model, network, cause, f"{seed} {number} {cause}")
    case = reported(model, Case(model.family.id, kit), bench)
    return list(_steps(model, case, cause, bench.answer))


def _steps(
    model: SetModel, case: Case, cause: str, answer: Callable[[str], Finding]
) -> Iterator[Moment]:
    """Yield the steps; the last has nothing left to tell."""
    effort_min = 0.0
    for number in range(MOST_CHECKS + 1):
        now = step(model, case)
        is_over = now.verdict.kind in STOPS or number == MOST_CHECKS
        told = 0.0 if is_over else max(about_leaders(model, case, now).values(), default=0.0)
        ranked = mendable(now.causes)
        rank = next(n for n, each in enumerate(ranked, start=1) if each.id == cause)
        yield Moment(told, rank, ranked[rank - 1].probability, effort_min)
        if is_over:
            return
        check = proposed(now)[0]
        effort_min += check.effort_min
        case = add_finding(case, answer(check.id))


def stopped(steps: Sequence[Moment], limit_bits: float) -> int:
    """Return the number of checks after which the best one tells less than the limit."""
    return next((n for n, each in enumerate(steps) if each.told_bits < limit_bits), len(steps) - 1)


def print_table(title: str, sets: Sequence[Sequence[Moment]]) -> None:
    """Print for each limit how many checks were made and how often the true cause was found."""
    print(f"\n{title}: stop when no check tells that much about one leading cause")
    for limit in LIMITS:
        ends = [stopped(steps, limit) for steps in sets]
        last = [steps[end] for steps, end in zip(sets, ends, strict=True)]
        first = fmean(each.rank == 1 for each in last)
        three = fmean(each.rank <= 3 for each in last)
        print(
            f"  {limit:.2f} bits{' (now)' if limit == TELLS_BITS else '':6}: {fmean(ends):5.1f} "
            f"checks, {fmean(each.effort_min for each in last):5.1f} min, first "
            f"{100 * first:.0f} %, in the first three {100 * three:.0f} %, true cause at "
            f"{100 * fmean(each.probability for each in last):.0f} %"
        )


if __name__ == "__main__":
    main()
