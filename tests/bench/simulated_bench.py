"""Measures the advice on simulated sets: python tests/bench/simulated_bench.py FAMILY. Not a test.

Every cause with a prior above 1e-4 is put into a set of its own. The owner reports what is
noticed, then the best check is made again and again, with answers drawn from what the knowledge
says of the true state: what is measured is the procedure, and how sharp the knowledge can be if
it is right, not whether the knowledge is right about real sets.
"""

import argparse
import gc
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path
from random import Random
from statistics import median, quantiles

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.assessing.alike import Signature, Way, groups, signatures, unseen  # noqa: E402
from engine.assessing.drawing import one_cause  # noqa: E402
from engine.assessing.manual import Manual, manual_of  # noqa: E402
from engine.assessing.policies import POLICIES  # noqa: E402
from engine.assessing.trial import Plan, Trial, run_trial  # noqa: E402
from engine.diagnosis.advising import advice  # noqa: E402
from engine.diagnosis.case import Kit, full_kit  # noqa: E402
from engine.diagnosis.making.building import build_network  # noqa: E402
from engine.diagnosis.model import SetModel  # noqa: E402
from engine.inference.elsewhere import pass_elsewhere  # noqa: E402
from engine.inference.network import Network  # noqa: E402
from engine.knowledge.library import read_library  # noqa: E402
from engine.terminal.columns import columns  # noqa: E402
from engine.terminal.models import open_model  # noqa: E402
from tests.inference.test_elsewhere import Script  # noqa: E402

FAMILY = "three-crystal-fm"
LEAST_PRIOR = 1e-4
SHARES = ("first", "alike", "three", "block", "by prior")
HEAD = ("causes", "sets", *SHARES, "median", "90 %", "led by", "min")

worker: dict[str, tuple[SetModel, Network, Manual]] = {}


def main() -> None:
    """Run all trials and print the tables."""
    args = _arguments()
    library = read_library(ROOT / "kb")
    model = open_model(ROOT / "kb", args.family)
    assert model is not None, args.family
    network = build_network(library.of(args.family), library.families[args.family])
    kit = full_kit(model) if args.kit == "full" else Kit(frozenset({"multimeter", "tools"}), "off")
    plan = Plan(args.policy, kit, most_checks=args.checks)
    print(f"{args.family}: {len(model.blocks)} blocks, {len(model.causes)} causes, ", end="")
    print(f"{len(model.checks)} checks, {model.tree.size} table entries")
    print(
        f"policy {args.policy}, kit {args.kit}, seed {args.seed}, acted on at {args.act:g}, ",
        end="",
    )
    print(f"at most {args.checks} checks, knowledge {model.version}")
    found = signatures(model, network, kit)
    causes = simulated_causes(model)
    if args.most is not None:
        causes = Random(args.seed).sample(causes, min(args.most, len(causes)))
    trials = run_all(model, network, causes, plan, args)
    print_tables(model, trials, found)
    print_failures(trials, found, args.show)
    print_groups(found)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("family", nargs="?", default=FAMILY, help="a kind of set")
    parser.add_argument("--act", type=float, default=advice.SURE, help="as sure as that to act")
    parser.add_argument("--seed", type=int, default=1, metavar="N", help="seed of the dice")
    parser.add_argument("--most", type=int, default=None, metavar="N", help="only N causes, drawn")
    parser.add_argument("--checks", type=int, default=40, metavar="N", help="stop after N checks")
    parser.add_argument("--policy", choices=tuple(POLICIES), default="shipped")
    parser.add_argument("--kit", choices=("full", "meter"), default="full")
    parser.add_argument(
        "--script", action="store_true", help="passes by the page's script, in node"
    )
    parser.add_argument("--show", action="store_true", help="every answer of each failure")
    return parser.parse_args()


def simulated_causes(model: SetModel) -> list[str]:
    """Return the causes that are worth a trial, in order of knowledge."""
    return [
        cause.id
        for cause in model.causes.values()
        if cause.prior > LEAST_PRIOR and cause.kind not in ("event", "unlisted")
    ]


def run_all(
    model: SetModel, network: Network, causes: Sequence[str], plan: Plan, args: argparse.Namespace
) -> list[Trial]:
    """Run one trial for each cause, on all cores; the same seed always gives the same trials."""
    trials: list[Trial] = []
    start = (model, network, args.act, args.script)
    with ProcessPoolExecutor(initializer=_start, initargs=start) as pool:
        for trial in pool.map(partial(_run, plan, args.seed), causes, chunksize=4):
            trials.append(trial)
            if len(trials) % 25 == 0 or len(trials) == len(causes):
                print(f"\r{len(trials)} of {len(causes)} sets", end="", file=sys.stderr, flush=True)
    print(file=sys.stderr)
    return trials


def _start(model: SetModel, network: Network, act: float, by_script: bool) -> None:
    advice.SURE = act
    worker["set"] = model, network, manual_of(model, network)
    gc.disable()  # a fifth of the time, and next to nothing goes round in circles
    if by_script:
        script = Script()
        pass_elsewhere(script.hold, script.evidence, script.posteriors)


def _run(plan: Plan, seed: int, cause: str) -> Trial:
    model, network, manual = worker["set"]
    return run_trial(model, manual, one_cause(model, network, cause, f"{seed} {cause}"), plan)


def alike(trial: Trial, found: dict[Way, Signature]) -> bool:
    """Whether what leads is the true cause, or one that no check tells from it."""
    return trial.is_first or found.get((trial.leader, trial.leader_way)) == found[trial.there[0]]


def print_tables(model: SetModel, trials: list[Trial], found: dict[Way, Signature]) -> None:
    """Print one row for each kind of cause, one for all, and how the trials ended."""
    of = {id(trial): model.causes[trial.there[0][0]].kind for trial in trials}
    kinds = sorted(set(of.values()))
    rows = [_row(model, kind, [t for t in trials if of[id(t)] == kind], found) for kind in kinds]
    heard = [trial for trial in trials if trial.symptoms]
    rows += [_row(model, "all", trials, found), _row(model, "with a symptom", heard, found)]
    print("", columns(HEAD, rows), sep="\n")
    print(
        "\nfirst: true cause first; alike: or one that no check tells from it; three: in the first"
        "\nthree; block: what leads is in the true block; by prior: first, each set weighted by how"
        "\ncommon it is; median, 90 %: checks made; led by: of sets that end first, the check after"
        "\nwhich the true cause stayed first, median; min: median minutes. Ranks leave out events."
    )
    ends = Counter(trial.verdict for trial in trials)
    print("\nended with: " + ", ".join(f"{kind} {n}" for kind, n in sorted(ends.items())))
    print(f"trials with clashing findings: {sum(bool(trial.clashes) for trial in trials)}")
    acted = [trial for trial in trials if trial.verdict == "act"]
    print(f"of those told to act, first: {_share(acted, lambda t: t.is_first)}")


def _row(
    model: SetModel, name: str, trials: list[Trial], found: dict[Way, Signature]
) -> tuple[object, ...]:
    prior = {id(trial): model.causes[trial.there[0][0]].prior for trial in trials}
    checks = sorted(trial.checks for trial in trials)
    total = sum(prior.values())
    first = [trial for trial in trials if trial.is_first]
    common = sum(prior[id(trial)] for trial in first) / total
    return (
        name,
        len(trials),
        _share(trials, lambda t: t.is_first),
        _share(trials, lambda t: alike(t, found)),
        _share(trials, lambda t: t.ranks[-1] <= 3),
        _share(trials, lambda t: t.block_right),
        f"{100 * common:.1f} %",
        f"{median(checks):g}",
        f"{quantiles(checks, n=10)[-1]:g}" if len(checks) > 1 else f"{checks[0]}",
        f"{median(trial.first_after for trial in first):g}" if first else "-",
        f"{median(trial.minutes for trial in trials):g}",
    )


def _share(trials: list[Trial], holds: Callable[[Trial], bool]) -> str:
    return f"{100 * sum(map(holds, trials)) / max(len(trials), 1):.1f} %"


def print_failures(trials: list[Trial], found: dict[Way, Signature], show: bool) -> None:
    """Print every set whose cause did not come among the first three."""
    failed = [trial for trial in trials if trial.ranks[-1] > 3]
    print(f"\nnot among the first three: {len(failed)}")
    for t in failed:
        mark = " (alike)" if alike(t, found) else ""
        print(
            f"  {' '.join(t.there[0])}: rank {t.ranks[-1]}, {t.symptoms} symptoms, {t.checks} "
            f"checks, {t.verdict}; led at {100 * t.probability:.2f} %: {t.leader} {t.leader_way}"
            f"{mark}"
        )
        for check, said in t.answers if show else ():
            print(f"      {check}: {said}")


def print_groups(found: dict[Way, Signature]) -> None:
    """Print the ways that no check tells apart, and those that no check sees at all."""
    together = groups(found)
    print(f"\nalike in every check of this kit: {len(together)} groups")
    for ways in together:
        print("  " + " = ".join(f"{cause} {way}" for cause, way in ways))
    hidden = unseen(found)
    print(f"\nseen by no check of this kit: {len(hidden)}")
    for cause, way in hidden:
        print(f"  {cause} {way}")


if __name__ == "__main__":
    main()
