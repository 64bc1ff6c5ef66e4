"""`dryjoint prove`: what to measure before a set is called right, and what the readings prove."""

import json
from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path

from engine.errors import CaseError, UnknownReading, suggest
from engine.knowledge.library import Library
from engine.knowledge.prooffile import read_proof
from engine.knowledge.reading import read_text
from engine.proving.making import make_sheet
from engine.proving.opening import ProofCase, open_proof
from engine.proving.sheet import Point, ProofSheet
from engine.proving.verdict import Row, rules_of
from engine.proving.words import (
    DEFER,
    ROWS,
    RULE,
    VERDICTS,
    bounds_words,
    cautions_first,
    caveats,
    reasons,
    rules_words,
    where_words,
)
from engine.terminal.columns import columns
from engine.terminal.command import Subparsers
from engine.terminal.knowledge_base import UsageError, add_kb_option, open_library
from engine.terminal.proof_data import blank_data, proof_data
from engine.terminal.report import filled

ABOUT = "Show what to measure before a set is called right, or judge the readings in a file."


def add_to(subparsers: Subparsers) -> None:
    """Add `prove` to the command line."""
    parser = subparsers.add_parser("prove", help="prove that a set is right", description=ABOUT)
    parser.add_argument(
        "what", metavar="FAMILY-or-FILE", help="a kind of set, or a file with its readings"
    )
    parser.add_argument("--rules", metavar="R", help="rule set; with a kind of set only")
    parser.add_argument("--json", action="store_true", help="everything, for a script")
    add_kb_option(parser)
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Print the sheet of a kind of set, or what a file proves; return 1 unless it is right."""
    library = open_library(args.kb)
    if args.what in library.families:
        return _blank(sheet_of(library, args.what), args)
    if args.rules:
        raise UsageError("--rules goes with a kind of set; a file names its own as 'rules: ...'")
    case = load_proof(library, Path(args.what))
    if args.json:
        print(json.dumps(proof_data(case), indent=2, ensure_ascii=False))
    else:
        print(proof_text(case))
    return 0 if case.now.verdict == "right" else 1


def sheet_of(library: Library, family: str) -> ProofSheet:
    """Return the proof of a family; raise UsageError where the knowledge has none."""
    sheet = make_sheet(library, family)
    if sheet is None:
        raise UsageError("this knowledge has no tables/proof.yaml: nothing says what to measure")
    return sheet


def load_proof(library: Library, path: Path) -> ProofCase:
    """Return what a file proves.

    Raises:
        UsageError: there is no such file.
        CaseError: with every problem in it.
    """
    if not path.is_file():
        hint = suggest(str(path), library.families)
        raise UsageError(f"no set and no file '{path}'. {hint}")
    document, source = read_proof(str(path), read_text(path))
    if document.family not in library.families:
        remedy = suggest(document.family, library.families)
        found = f"'{document.family}'"
        raise CaseError([source.problem(("family",), found, "a kind of set", remedy)])
    return open_proof(sheet_of(library, document.family), document, source)


def _blank(sheet: ProofSheet, args: Namespace) -> int:
    try:
        rules = rules_of(sheet, args.rules or "")
    except UnknownReading as error:
        raise UsageError(str(error)) from None
    if args.json:
        print(json.dumps(blank_data(sheet, rules.id), indent=2, ensure_ascii=False))
        return 0
    known = "; ".join(part for part in (rules.title, rules.where, rules.when) if part)
    print(f"{sheet.title}\nHeld to {rules.id}: {known}\nRule sets: {', '.join(sheet.rule_sets)}\n")
    print("Before the first step:")
    print("\n".join(filled(f"! {caution}") for caution in cautions_first(sheet)))
    for point in sheet.points:
        print("\n" + "\n".join(_point_lines(sheet, point, rules.id)))
    print(f"\n{filled(RULE).strip()}\n{filled(DEFER).strip()}")
    return 0


def _point_lines(sheet: ProofSheet, point: Point, rules: str) -> Iterator[str]:
    """Yield one point as it is to be measured."""
    yield f"{point.id}: {where_words(point)}"
    if point.quantity == "frequency-error":
        yield f"  Right: {point.right_mhz:.6f} MHz"
    yield filled(f"Held to: {bounds_words(point, rules)}")
    yield filled(point.how)
    takes = [" or ".join(sheet.instruments[meter.instrument] for meter in point.meters)]
    takes += [sheet.instruments[one] for one in point.needs]
    yield filled(f"It takes: {'; '.join(one for one in takes if one) or 'nothing'}")


def proof_text(case: ProofCase) -> str:
    """Return what a file proves: verdict and reasons first, then every row."""
    proved = case.now
    head = [case.title] if case.title else []
    head += [proved.sheet.title, f"Held to {rules_words(proved)}"]
    why = [filled(line) for line in reasons(proved)]
    last = [filled(line).strip() for line in (*caveats(proved), RULE, DEFER)]
    parts = (
        "\n".join(head), "\n".join([VERDICTS[proved.verdict], *why]), _table(case), "\n".join(last),
    )  # fmt: skip
    return "\n\n".join(parts)


def _table(case: ProofCase) -> str:
    """Return before and after as a table."""
    has_before = any(row.reading for row in case.before.rows)
    rows = []
    for row, before in zip(case.now.rows, case.before.rows, strict=True):
        was = [_read(before)] if has_before else []
        name = f"{row.point.title} @{row.point.channel}" if row.point.unit else row.point.title
        held = bounds_words(row.point, case.now.rules.id)
        rows.append((name, *was, _read(row), ROWS[row.verdict], held))
    head = ("point", *(("before",) if has_before else ()), "now", "verdict", "held to")
    return columns(head, rows)


def _read(row: Row) -> str:
    return row.reading.said if row.reading else "-"
