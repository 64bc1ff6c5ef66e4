"""The proof of a set: a verdict for each point, and one for the whole."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Literal

from engine.errors import UnknownReading, suggest
from engine.proving.holding import Held, hold
from engine.proving.readings import Reading
from engine.proving.sheet import Point, ProofSheet, Rules

RowVerdict = Literal["pass", "fail", "cannot-tell", "poor", "missing"]
Verdict = Literal["right", "poor", "not-shown", "fails"]


@dataclass(frozen=True, slots=True)
class Row:
    """A point with its reading and what each bound says of it.

    `lacks` names what keeps it from being judged: the point itself, or the one it is told against.
    """

    point: Point
    reading: Reading | None
    held: tuple[Held, ...]
    verdict: RowVerdict
    lacks: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class Proved:
    """The whole proof under one rule set."""

    sheet: ProofSheet
    rules: Rules
    rows: tuple[Row, ...]
    verdict: Verdict

    @property
    def missing(self) -> tuple[Row, ...]:
        """Return the points that were not measured, or not to the end."""
        return tuple(row for row in self.rows if row.verdict == "missing")

    @property
    def doubtful(self) -> tuple[Held, ...]:
        """Return limits that were held and that nobody has read in the document itself."""
        return tuple(
            each
            for row in self.rows
            for each in row.held
            if not each.bound.is_guide and each.bound.limit.read != "read"
        )


def rules_of(sheet: ProofSheet, name: str) -> Rules:
    """Return a rule set that was made for the channels of the set; its own where none is named.

    Raises:
        UnknownReading: there is no such rule set, or it is for other channels.
    """
    chosen = name or sheet.rules
    if chosen in sheet.rule_sets:
        return sheet.rule_sets[chosen]
    expected = f"one of {', '.join(sheet.rule_sets)}"
    if chosen in sheet.elsewhere:
        remedy = "A set is held to the rules its channels were made for; it cannot be judged here."
        raise UnknownReading("rules", f"'{chosen}', rules for other channels", expected, remedy)
    raise UnknownReading("rules", f"'{chosen}'", expected, suggest(chosen, sheet.rule_sets))


def prove(sheet: ProofSheet, rules: Rules, readings: Mapping[str, Reading]) -> Proved:
    """Return what the readings prove under a rule set."""
    rows = tuple(_row(sheet, rules, point, readings) for point in sheet.points)
    return Proved(sheet, rules, rows, _whole({row.verdict for row in rows}))


def _row(sheet: ProofSheet, rules: Rules, point: Point, readings: Mapping[str, Reading]) -> Row:
    reading = readings.get(point.id)
    if reading is None:
        return Row(point, None, (), "missing", (point.title,))
    if reading.is_seen is not None:
        return Row(point, reading, (), "pass" if reading.is_seen else "fail")
    bounds = point.bounds[rules.id]
    able = [each for each in bounds if not each.against or each.against in readings]
    held = tuple(hold(point, each, reading, readings) for each in able)
    lacks = dict.fromkeys(_title(sheet, each.against) for each in bounds if each not in able)
    return Row(point, reading, held, _judged(held, bool(lacks)), tuple(lacks))


def _judged(held: Collection[Held], is_lacking: bool) -> RowVerdict:
    """Return the verdict on a point: limits with their guard band, guides by the bare value."""
    limits = {each.judgement.verdict for each in held if not each.bound.is_guide}
    if "beyond" in limits:
        return "fail"
    if is_lacking:
        return "missing"
    if "cannot-tell" in limits:
        return "cannot-tell"
    return "pass" if all(each.is_kept for each in held if each.bound.is_guide) else "poor"


def _whole(verdicts: Collection[RowVerdict]) -> Verdict:
    if "fail" in verdicts:
        return "fails"
    if "missing" in verdicts or "cannot-tell" in verdicts:
        return "not-shown"
    return "poor" if "poor" in verdicts else "right"


def _title(sheet: ProofSheet, name: str) -> str:
    point = sheet.point(name)
    return point.title if point else name
