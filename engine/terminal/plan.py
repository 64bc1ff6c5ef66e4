"""`dryjoint plan`: what every oscillator, line and counter of a set must read."""

import json
import textwrap
from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path

from engine.errors import suggest
from engine.knowledge.library import Library
from engine.radio.plans.chart import Slip, read_chart, slips
from engine.radio.plans.plan import Plan
from engine.radio.plans.sheet import PlanSheet, plan_sheet
from engine.radio.plans.tables import Table, plan_tables
from engine.radio.plans.writing import figure, runs
from engine.terminal.columns import columns
from engine.terminal.command import Subparsers
from engine.terminal.knowledge_base import UsageError, add_kb_option, open_library
from engine.terminal.sheet_data import sheet_data, slip_data

ABOUT = "Show the frequency plan of a set, or hold a printed chart against it."
WIDTH = 96


def add_to(subparsers: Subparsers) -> None:
    """Add `plan` to the command line."""
    parser = subparsers.add_parser("plan", help="show a frequency plan", description=ABOUT)
    parser.add_argument("name", metavar="FAMILY-or-PLAN", help="a kind of set, or a plan")
    parser.add_argument("--mode", metavar="M", help="am, fm, usb, lsb; the first when left out")
    parser.add_argument("--json", action="store_true", help="everything, for a script")
    parser.add_argument(
        "--chart",
        type=Path,
        metavar="FILE.csv",
        help="a printed chart: channel and some of frequency, n, vco, lo, transmit, the lines",
    )
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print the plan, or the slips of a chart; return 1 when there are any."""
    plan = chosen(open_library(args.kb), args.name)
    sheet = plan_sheet(plan, _mode(plan, args.mode))
    if args.chart is not None:
        return _compare(sheet, args.chart, args.json)
    if args.json:
        print(json.dumps(sheet_data(sheet), indent=2, ensure_ascii=False))
    else:
        print(plan_text(sheet))
    return 0


def chosen(library: Library, name: str) -> Plan:
    """Return the plan of a family, or the plan of this name.

    Raises:
        UsageError: there is none.
    """
    if name in library.plans:
        return library.plans[name]
    if name in library.families:
        plan = library.families[name].plan
        if plan is None:
            raise UsageError(f"no frequency plan is known of '{name}'")
        return library.plans[plan]
    known = [*library.families, *library.plans]
    raise UsageError(f"no set and no plan '{name}'. {suggest(name, known)}")


def _mode(plan: Plan, given: str | None) -> str:
    mode = next(iter(plan.modes)) if given is None else given.lower()
    if mode not in plan.modes:
        raise UsageError(f"'{plan.id}' has no mode '{given}'. {suggest(mode, plan.modes)}")
    return mode


def plan_text(sheet: PlanSheet) -> str:
    """Return a plan in words and tables, no line longer than a hundred characters."""
    return "\n\n".join(_parts(sheet))


def _parts(sheet: PlanSheet) -> Iterator[str]:
    """Yield the plan in words, its tables, and what to mind."""
    plan, modes = sheet.plan, sheet.plan.modes
    yield f"{plan.title}\n{plan.id}, in {modes[sheet.mode].title}; modes: {', '.join(modes)}"
    yield textwrap.fill(plan.about, WIDTH)
    yield from (_table(table) for table in plan_tables(sheet))
    if plan.notes:
        yield "\n".join(
            textwrap.fill(note, WIDTH, initial_indent="- ", subsequent_indent="  ")
            for note in plan.notes
        )
    yield textwrap.fill(f"Source: {plan.source}", WIDTH)


def _table(table: Table) -> str:
    cells = columns(table.head, table.rows)
    return f"{table.title}\n{textwrap.fill(table.note, WIDTH)}\n{cells}"


def _compare(sheet: PlanSheet, path: Path, as_json: bool) -> int:
    if not path.is_file():
        raise UsageError(f"{path}: no such file")
    text = path.read_text(encoding="utf-8-sig")
    rows = read_chart(str(path), text, sheet)
    found = slips(sheet, rows)
    if as_json:
        print(json.dumps([slip_data(slip) for slip in found], indent=2))
    else:
        told = f"{len(found) or 'no'} {'slip' if len(found) == 1 else 'slips'}"
        print(f"{path}: {len(rows)} channels held against '{sheet.plan.id}': {told}")
        for slip in found:
            print(f"  {slip_words(slip)}")
    return 1 if found else 0


def slip_words(slip: Slip) -> str:
    """Return a slip as a line.

    >>> from fractions import Fraction as F
    >>> slip_words(Slip("n", (3,), ("90",), (F(91),)))
    'channel 3: n is printed 90, should be 91'
    """
    if len(slip.channels) == 1:
        printed, right = slip.printed[0], figure(slip.right[0])
        return f"channel {slip.channels[0]}: {slip.column} is printed {printed}, should be {right}"
    side = "high" if slip.by > 0 else "low"
    ends = f"{slip.printed[0]} to {slip.printed[-1]}"
    right = f"{figure(slip.right[0])} to {figure(slip.right[-1])}"
    where = f"channels {runs(slip.channels)}: {slip.column} is printed {figure(abs(slip.by))} too"
    return f"{where} {side}, {ends}, should be {right}"
