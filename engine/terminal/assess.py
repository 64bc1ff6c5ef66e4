"""`dryjoint assess`: how well the advice does on simulated sets."""

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from concurrent.futures import Executor
from functools import partial
from itertools import product
from pathlib import Path

from engine.assessing.drawing import FAULTS, FAULTS_HELP
from engine.assessing.known_wrongly import KNOWN, Knowledge, known
from engine.assessing.policies import POLICIES, TITLES
from engine.assessing.pools import NoCluster, pool_of
from engine.assessing.runs import SIMULATED, Run, Setting, UnreadableRun, keep_runs, run_of
from engine.assessing.scores import scores_of
from engine.assessing.shards import run_all, shards
from engine.assessing.trial import MOST_CHECKS, REPORTS, Plan
from engine.assessing.ways import WAY_TITLES, WAYS
from engine.diagnosis.case import Kit, full_kit
from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.model import SetModel
from engine.errors import suggest
from engine.terminal.assessed import table
from engine.terminal.command import Subparsers, count
from engine.terminal.knowledge_base import UsageError, add_kb_option, open_library
from engine.terminal.models import families, open_model

ABOUT = "Work on simulated sets and tell how well it goes. The same seed gives the same figures."
KITS = {
    "full": frozenset[str](),
    "meter": frozenset({"multimeter", "tools"}),
    "eyes": frozenset({"tools"}),
}
WAYS_TOLD = {**TITLES, **WAY_TITLES}
EPILOG = "Ways of working: " + "; ".join(f"{name}: {told}" for name, told in WAYS_TOLD.items())


def add_to(subparsers: Subparsers) -> None:
    """Add `assess` to the command line."""
    parser = subparsers.add_parser("assess", help="simulated sets, and figures", description=ABOUT)
    parser.epilog = EPILOG
    parser.add_argument("family", nargs="*", help="kinds of set; none stands for all")
    _add_choices(parser, "--policy", (*POLICIES, *WAYS), "shipped", "ways of working, see below")
    _add_choices(parser, "--known", KNOWN, "right", "how wrong the knowledge is")
    _add_choices(parser, "--faults", FAULTS, "1", FAULTS_HELP)
    _add_choices(parser, "--kit", tuple(KITS), "full", "full, a multimeter alone, or bare eyes")
    parser.add_argument("--report", choices=REPORTS, default=REPORTS[0], help="what owners tell")
    parser.add_argument("--sets", type=count, default=20, metavar="N", help="of each (default 20)")
    parser.add_argument("--seed", type=int, default=1, metavar="N", help="seed of the dice")
    parser.add_argument("--most", type=count, default=MOST_CHECKS, metavar="N", help="checks a set")
    parser.add_argument("--workers", type=count, metavar="N", help="processes; one a core")
    parser.add_argument("--cluster", default="", metavar="ADDRESS", help="a cluster to run on")
    parser.add_argument("--out", type=Path, metavar="FILE", help="keep the figures in this file")
    add_kb_option(parser)
    parser.set_defaults(run=run)


def _add_choices(
    parser: ArgumentParser, name: str, choices: tuple[str, ...], usual: str, told: str
) -> None:
    parser.add_argument(name, nargs="+", choices=choices, default=[usual], help=told)


def run(args: Namespace) -> int:
    """Run every combination of what was asked for, print the table, keep the figures."""
    if not args.sets:
        raise UsageError("--sets: found 0, expected 1 or more")
    runs: list[Run] = []
    try:
        with pool_of(args.workers, args.cluster) as pool:
            for family, how in product(_families(args), args.known):
                model = open_model(args.kb, family)
                assert model is not None, family
                knowledge = known(model, open_library(args.kb), how, args.seed)
                for setting in _settings(args, model, how):
                    runs.append(_one(pool, knowledge, setting))
                    if args.out:
                        keep_runs(args.out, runs[-1:])
    except (NoCluster, UnreadableRun) as error:
        raise UsageError(str(error)) from None
    print(SIMULATED, table(runs), sep="\n\n")
    return 0


def _settings(args: Namespace, model: SetModel, how: str) -> Iterator[Setting]:
    for policy, faults, kit in product(args.policy, args.faults, args.kit):
        yield Setting(
            family=model.family.id,
            policy=policy,
            known=how,
            faults=faults,
            kit=kit,
            report=args.report,
            sets=args.sets,
            seed=args.seed,
            most_checks=args.most,
            version=model.version,
        )


def _one(pool: Executor, knowledge: Knowledge, setting: Setting) -> Run:
    """Return one run: so many sets worked on in one way."""
    kit = _kit(knowledge.truth, setting.kit)
    plan = Plan(setting.policy, kit, setting.report, setting.most_checks)
    parts = shards(knowledge, setting.faults, plan, setting.seed, range(setting.sets))
    return run_of(setting, scores_of(run_all(pool, parts, partial(_progress, setting))))


def _progress(setting: Setting, done: int, total: int) -> None:
    """Say how far a run is, on the line that is there already."""
    name = " ".join((setting.family, setting.policy, setting.known, setting.faults, setting.kit))
    end = "\n" if done == total else ""
    print(f"\r{name}: {done} of {total} sets", end=end, file=sys.stderr, flush=True)


def _families(args: Namespace) -> list[str]:
    """Return the families that were asked for, or all."""
    there = [name for name in families(args.kb) if name != NOT_SURE]
    for name in args.family:
        if name not in there:
            raise UsageError(f"no family '{name}'. {suggest(name, there)}")
    return args.family or there


def _kit(model: SetModel, name: str) -> Kit:
    """Return a kit by its name; bare eyes may open the set too."""
    if name == "full":
        return full_kit(model)
    return Kit(KITS[name] & model.instruments.keys(), "off")
