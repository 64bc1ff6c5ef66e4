"""`dryjoint bench`: how fast it is, for every kind of set and as sets grow."""

from argparse import Namespace
from collections.abc import Iterator, Sequence

from engine.assessing.other_libraries import WAYS, is_installed
from engine.assessing.race import Job, Outcome, family_job, race, size_job
from engine.assessing.speed import (
    SIZES,
    FamilySpeed,
    SizeSpeed,
    counted_work,
    exponent,
    family_speed,
    size_speed,
)
from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.making.building import build_network
from engine.terminal.columns import columns
from engine.terminal.command import Subparsers, count
from engine.terminal.knowledge_base import add_kb_option, open_library
from engine.terminal.models import families, open_model

ABOUT = "Time loading, compiling and answering. Compare figures of one run only."
FAMILY_HEAD = (
    "family", "causes", "checks", "entries a pass", "packed kB", "load ms", "first ms", "next ms",
)  # fmt: skip
SIZE_HEAD = ("causes", "entries a pass", "compile ms", "pass ms")
OTHER_HEAD = ("library", "set", "its ms", "our ms", "times as long", "largest difference")
MADE_UP = (25, 50, 100, 200, 400)  # causes, until a library that cannot hold the kind of set fails


def add_to(subparsers: Subparsers) -> None:
    """Add `bench` to the command line."""
    parser = subparsers.add_parser("bench", help="time it on this machine", description=ABOUT)
    parser.add_argument(
        "--largest", type=count, default=SIZES[-1], metavar="N", help="causes of made-up sets"
    )
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print the tables: kinds of set, made-up sets, other libraries."""
    names = [name for name in families(args.kb) if name != NOT_SURE]
    models = [model for name in names if (model := open_model(args.kb, name)) is not None]
    print(columns(FAMILY_HEAD, [_family_row(family_speed(model)) for model in models]))
    sizes = [size_speed(causes) for causes in SIZES if causes <= args.largest]
    print(
        "\nMade-up sets, processor time; the pass works out every posterior after a new finding\n"
    )
    print(columns(SIZE_HEAD, [_size_row(each) for each in sizes]))
    if len(sizes) > 2:
        print(f"\n{_growth(sizes)}")
    print(
        "\nOther libraries: posteriors of all causes and gains of all checks, one finding changed\n"
    )
    largest = max(models, key=counted_work)
    library = open_library(args.kb)
    family = library.families[largest.family.id]
    job = family_job(largest, build_network(library.of(largest.family.id), family))
    print(columns(OTHER_HEAD, [row for way in WAYS for row in _against(way, job)]))
    return 0


def _against(way: str, job: Job) -> Iterator[tuple[object, ...]]:
    """Yield a row for the kind of set, and where that fails for made-up sets until they do too."""
    if not is_installed(way):
        yield way, "not installed", "-", "-", "-", "-"
        return
    outcome = race(job, WAYS[way])
    yield _other_row(way, job, outcome)
    for causes in MADE_UP if outcome.trouble else ():
        made_up = size_job(causes)
        outcome = race(made_up, WAYS[way])
        yield _other_row(way, made_up, outcome)
        if outcome.trouble:
            return


def _other_row(way: str, job: Job, outcome: Outcome) -> tuple[object, ...]:
    if outcome.trouble:
        return way, job.title, outcome.trouble, "-", "-", "-"
    ratio = f"{outcome.theirs_ms / outcome.ours_ms:.1f}"
    times = _ms(outcome.theirs_ms), _ms(outcome.ours_ms)
    return way, job.title, *times, ratio, f"{outcome.apart:.0e}"


def _family_row(row: FamilySpeed) -> tuple[object, ...]:
    sizes = (row.causes, row.checks, row.work, row.packed_bytes // 1000)
    return row.family, *sizes, _ms(row.load_ms), _ms(row.first_ms), _ms(row.next_ms)


def _size_row(row: SizeSpeed) -> tuple[object, ...]:
    return row.causes, row.work, _ms(row.compile_ms), _ms(row.pass_ms)


def _growth(sizes: Sequence[SizeSpeed]) -> str:
    """Return with which power of the causes each cost grows."""
    causes = [float(each.causes) for each in sizes]
    costs = {
        "entries": [float(each.work) for each in sizes],
        "compile": [each.compile_ms for each in sizes],
        "pass": [each.pass_ms for each in sizes],
    }
    told = ", ".join(f"{name} {exponent(causes, row):.2f}" for name, row in costs.items())
    return f"grows as causes to the power of: {told}"


def _ms(time_ms: float) -> float:
    return round(time_ms, 1)
