"""`dryjoint rank`: what a case file says about the causes, and what to check next."""

import json
from argparse import Namespace
from pathlib import Path

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.explaining import explanations
from engine.diagnosis.advising.steps import ORDERS
from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.diagnosis.opening import open_case
from engine.diagnosis.repairing.again import in_order
from engine.errors import CaseError, suggest
from engine.knowledge.casefile import CaseDocument, read_case
from engine.knowledge.reading import read_text
from engine.terminal.command import Subparsers, count
from engine.terminal.knowledge_base import UsageError, add_kb_option
from engine.terminal.models import families, open_model
from engine.terminal.page_file import load_log, page_log
from engine.terminal.report import report
from engine.terminal.results import results
from engine.terminal.visits import after_setting_up

ORDER_HELP = "of checks: what is best made next, what tells most, what tells most a minute"
ABOUT = "Rank the causes of a case, and the checks that would tell most."


def add_to(subparsers: Subparsers) -> None:
    """Add `rank` to the command line."""
    parser = subparsers.add_parser("rank", help="rank the causes of a case", description=ABOUT)
    parser.add_argument("case", type=Path, metavar="CASE", help="a case file, YAML or JSON")
    parser.add_argument("--json", action="store_true", help="everything, for a script")
    parser.add_argument("--order", choices=ORDERS, default="worth", help=ORDER_HELP)
    parser.add_argument("--most", type=count, default=8, metavar="N", help="rows of each table")
    parser.add_argument("--joint", type=count, default=3, metavar="K", help="joint explanations")
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print the step of a case as a report or as JSON."""
    model, case = load_case(args.case, args.kb)
    answer = step(model, case)
    joint = explanations(model, case, args.joint)
    checks = in_order(case, answer, args.order)
    if args.json:
        print(json.dumps(results(model, case, answer, checks, joint), indent=2, ensure_ascii=False))
    else:
        print(report(model, case, answer, checks, joint, args.most))
    return 0


def load_case(path: Path, kb: Path) -> tuple[SetModel, Case]:
    """Return the model that a case file names, and the case with what setting up told of it.

    Raises as `load_document` does.
    """
    model, case, document = load_document(path, kb)
    return model, after_setting_up(model, case, document, path)


def load_document(path: Path, kb: Path) -> tuple[SetModel, Case, CaseDocument | None]:
    """Return the model that a case file names, the case, and the file as its author wrote it.

    A file saved by the page holds inputs in place of findings and is no such document.

    Raises:
        UsageError: there is no such file.
        CaseError: with every problem in it.
    """
    if not path.is_file():
        raise UsageError(f"{path}: no such file")
    text = read_text(path)
    if (log := page_log(text)) is not None:
        return *load_log(path, log, kb), None
    document, source = read_case(str(path), text)
    model = open_model(kb, document.family)
    if model is None:
        remedy = suggest(document.family, families(kb))
        problem = source.problem(("family",), f"'{document.family}'", "a kind of set", remedy)
        raise CaseError([problem])
    return model, open_case(model, document, source), document
