"""`dryjoint align`: the set-up sheet of this very set, whole or after a repair, in order."""

import json
from argparse import Namespace
from collections.abc import Iterator, Sequence
from pathlib import Path

from engine.diagnosis.case import Case, Kit, full_kit
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading, suggest
from engine.setting_up.guiding import Visit
from engine.setting_up.sheet import Step, put_right, steps
from engine.setting_up.words import (
    DEFER,
    numbers_of,
    reason_words,
    together_words,
    wanted_words,
)
from engine.terminal.align_data import sheet_data
from engine.terminal.align_visits import progress_data, progress_lines
from engine.terminal.command import Subparsers
from engine.terminal.knowledge_base import UsageError, add_kb_option
from engine.terminal.models import families, open_model
from engine.terminal.rank import load_document
from engine.terminal.report import filled
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
    parser.add_argument("--json", action="store_true", help="everything, for a script")
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print the set-up sheet; of a case file that was set up, what was read, judged."""
    if args.all and args.after:
        raise UsageError("--all and --after ask for two sheets; take one of them")
    model, case, visits = _opened(args)
    if model.setting_up is None:
        raise UsageError(f"nothing says how {model.family.id} is set up")
    after = None if args.all else tuple(args.after or put_right(case)) or None
    sheet = _asked(model, case, after, visits, args.rules)
    rules = args.rules or model.family.rules
    if args.json:
        data = sheet_data(model, sheet, rules, after)
        judged = {"progress": progress_data(model, case, sheet, visits)} if visits else {}
        print(json.dumps({**data, **judged}, indent=2, ensure_ascii=False))
    elif visits:
        print("\n".join(head_lines(model, rules, after)))
        print("\n".join(progress_lines(model, case, sheet, visits)))
    else:
        print("\n".join(_sheet_lines(model, sheet, rules, after)))
    return 0


def _opened(args: Namespace) -> tuple[SetModel, Case, tuple[Visit, ...]]:
    """Return the model and case of a kind of set, or of a case file with its visits."""
    path = Path(args.what)
    if path.is_file():
        if args.kit:
            raise UsageError("--kit goes with a kind of set; a case file names its own 'kit:'")
        model, case, document = load_document(path, args.kb)
        return model, case, visits_in(model, case, document, path, args.rules)
    found = open_model(args.kb, args.what)
    if found is None:
        hint = suggest(args.what, families(args.kb))
        raise UsageError(f"no set and no file '{args.what}'. {hint}")
    return found, Case(found.family.id, _kit(found, args.kit)), ()


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


def _sheet_lines(
    model: SetModel, sheet: Sequence[Step], rules: str, after: Sequence[str] | None
) -> Iterator[str]:
    """Yield the whole sheet: cautions first, then the steps by chapter."""
    yield from head_lines(model, rules, after)
    if not sheet:
        yield "\nNothing has to be set up after that."
        return
    yield "\nBefore the first step:"
    for name in dict.fromkeys(caution for step in sheet for caution in step.cautions):
        yield filled(f"! {model.cautions[name].title}: {model.cautions[name].text}")
    chapter, by_name = "", {step.id: step for step in sheet}
    for step in sheet:
        if step.chapter != chapter:
            yield f"\n{step.chapter}"
        chapter = step.chapter
        yield "\n" + "\n".join(step_lines(model, step, by_name))
    yield f"\n{filled(DEFER).strip()}"


def head_lines(model: SetModel, rules: str, after: Sequence[str] | None) -> Iterator[str]:
    """Yield which set this is, which rules its values keep to, and after what it is set up."""
    assert model.setting_up is not None
    yield model.family.title
    yield f"Values keep to {model.setting_up.rules[rules]} ({rules})"
    if after is not None:
        yield "Only what is needed after: " + "; ".join(model.causes[one].title for one in after)


def step_lines(model: SetModel, step: Step, sheet: dict[str, Step]) -> Iterator[str]:
    """Yield one step as it is to be made; its cautions come before anything to do."""
    setting = step.setting
    yield f"{step.number}. {step.title} ({step.id})"
    if step.cautions:
        yield filled("! " + "; ".join(model.cautions[one].title for one in step.cautions))
    moves = [one for one in step.disturbs if one not in step.together]
    for head, text in (
        ("Why", reason_words(model, step.reason)),
        ("After", numbers_of(step.first, sheet)),
        ("Mode", "" if setting.mode == "any" else setting.mode),
        ("Load", setting.load),
        ("With", "; ".join(_instrument(model, step, one) for one in setting.needs)),
        ("Apply", setting.apply),
        ("Where", setting.where),
        ("Look", setting.how),
        *(("Wanted", words) for words in wanted_words(step)),
        ("Turn", setting.turn),
        ("Together", together_words(model, step)),
        ("Moves", numbers_of(moves, sheet)),
        ("Source", setting.source),
    ):
        if text:
            yield filled(f"{head}: {text}")


def _instrument(model: SetModel, step: Step, name: str) -> str:
    title = model.instruments[name].title if name in model.instruments else name
    return f"{title} (NOT IN THE KIT)" if name in step.missing else title
