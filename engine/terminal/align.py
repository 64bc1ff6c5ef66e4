"""`dryjoint align`: the set-up sheet of this very set, whole or after a repair, in order."""

import json
from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path

from engine.diagnosis.case import Case, Kit, full_kit
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading, suggest
from engine.knowledge.casefile import CaseDocument
from engine.setting_up.guiding import Visit
from engine.setting_up.sheet import Step, put_right, steps
from engine.terminal.align_data import sheet_data
from engine.terminal.align_guide import guided, saved
from engine.terminal.align_visits import progress_data, progress_lines
from engine.terminal.align_words import head_lines, sheet_lines
from engine.terminal.command import Subparsers
from engine.terminal.knowledge_base import UsageError, add_kb_option
from engine.terminal.models import families, open_model
from engine.terminal.rank import load_document
from engine.terminal.visits import visits_in

ABOUT = (
    "Show how a set is set up, in order: where, with what, the value wanted, how to turn, what it "
    "moves. After a repair only what that makes necessary."
)


def add_to(subparsers: Subparsers) -> None:
    """Add `align` to the command line."""
    parser = subparsers.add_parser("align", help="set a set up in order", description=ABOUT)
    parser.add_argument("what", metavar="FAMILY-or-CASE", help="a kind of set, or a case file")
    after = "only what is needed once these were put right; of a case file: its repairs"
    parser.add_argument("--after", nargs="+", metavar="CAUSE", help=after)
    parser.add_argument("--all", action="store_true", help="everything, whatever was put right")
    parser.add_argument("--rules", default="", metavar="R", help="rule set the values keep to")
    kit = "instruments at hand, with a kind of set; a case file names its own"
    parser.add_argument("--kit", nargs="+", metavar="INSTRUMENT", help=kit)
    guide = "go through the steps one by one, and keep what was read in FILE, a case file"
    parser.add_argument("--guide", type=Path, metavar="FILE", help=guide)
    parser.add_argument("--json", action="store_true", help="everything, for a script")
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print the set-up sheet; of a case file that was set up, what was read, judged."""
    if args.all and args.after:
        raise UsageError("--all and --after ask for two sheets; take one of them")
    model, case, document = _opened(args)
    visits = visits_in(model, case, document, Path(args.what), args.rules)
    if model.setting_up is None:
        raise UsageError(f"nothing says how {model.family.id} is set up")
    after = None if args.all else tuple(args.after or put_right(case)) or None
    sheet = _asked(model, case, after, visits, args.rules)
    rules = args.rules or model.family.rules
    if args.guide:
        print("\n".join(head_lines(model, rules, after)))
        saved(args.guide, model, case, document, guided(model, case, sheet, visits))
    elif args.json:
        data = sheet_data(model, sheet, rules, after)
        judged = {"progress": progress_data(model, case, sheet, visits)} if visits else {}
        print(json.dumps({**data, **judged}, indent=2, ensure_ascii=False))
    elif visits:
        print("\n".join(head_lines(model, rules, after)))
        print("\n".join(progress_lines(model, case, sheet, visits)))
    else:
        print("\n".join(sheet_lines(model, sheet, rules, after)))
    return 0


def _opened(args: Namespace) -> tuple[SetModel, Case, CaseDocument | None]:
    """Return the model and case of a kind of set, or of a case file as its author wrote it."""
    path = Path(args.what)
    if path.is_file():
        if args.kit:
            raise UsageError("--kit goes with a kind of set; a case file names its own 'kit:'")
        return load_document(path, args.kb)
    found = open_model(args.kb, args.what)
    if found is None:
        hint = suggest(args.what, families(args.kb))
        raise UsageError(f"no set and no file '{args.what}'. {hint}")
    return found, Case(found.family.id, _kit(found, args.kit)), None


def _asked(
    model: SetModel,
    case: Case,
    after: Sequence[str] | None,
    visits: Sequence[Visit],
    rules: str,
) -> tuple[Step, ...]:
    """Return the sheet; what was visited after a repair is on it in any case."""
    visited = [visit.adjustment for visit in visits]
    try:
        return steps(model, case, None if after is None else [*after, *visited], rules)
    except UnknownReading as error:
        raise UsageError(str(error)) from None


def _kit(model: SetModel, names: Sequence[str] | None) -> Kit:
    if names is None:
        return full_kit(model)
    for name in names:
        if name not in model.instruments:
            raise UsageError(f"no instrument '{name}'. {suggest(name, model.instruments)}")
    return Kit(frozenset(names), "off")
