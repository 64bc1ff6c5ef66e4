"""A printed chart held against a plan: in which column and on which channels it slips."""

import csv
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from engine.errors import ChartError, Problem, suggest
from engine.radio.plans.sheet import ChannelRow, PlanSheet

CHANNEL = "channel"
MHZ = 1_000_000
NUMBER = re.compile(r"^-?\d+(\.\d+)?$")
# What stands in a column: frequencies in MHz, counts and lines as they are.
COLUMNS: dict[str, Callable[[ChannelRow], Fraction]] = {
    "frequency": lambda row: row.carrier_hz / MHZ,
    "n": lambda row: Fraction(row.n_receive),
    "n-transmit": lambda row: Fraction(row.n_transmit),
    "vco": lambda row: row.vco_receive_hz / MHZ,
    "vco-transmit": lambda row: row.vco_transmit_hz / MHZ,
    "lo": lambda row: row.lo_hz / MHZ,
    "transmit": lambda row: row.transmit_hz / MHZ,
    "image": lambda row: row.image_hz / MHZ,
}


@dataclass(frozen=True, slots=True)
class ChartRow:
    """What a chart prints for one channel, by column, as it is printed."""

    channel: int
    printed: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Slip:
    """Neighbouring channels that are all printed wrong by the same amount in one column.

    `printed` and `right` are those of each channel, in MHz or plain numbers.
    """

    column: str
    channels: tuple[int, ...]
    printed: tuple[str, ...]
    right: tuple[Fraction, ...]

    @property
    def by(self) -> Fraction:
        """Return how much too high it is printed."""
        return Fraction(self.printed[0]) - self.right[0]


def read_chart(file: str, text: str, sheet: PlanSheet) -> tuple[ChartRow, ...]:
    """Return the rows of a chart in CSV: a head with `channel` and known columns, then a row each.

    Raises:
        ChartError: with every problem at once.
    """
    table = list(csv.reader(text.splitlines()))
    head = [re.sub(r"[\s_]+", "-", cell.strip().lower()) for cell in table[0]] if table else []
    problems = list(_head_problems(file, head, sheet))
    for line, cells in enumerate(table[1:] if not problems else [], start=2):
        problems += _row_problems(file, line, head, cells, sheet)
    if problems:
        raise ChartError(problems)
    rows = (dict(zip(head, map(str.strip, cells), strict=True)) for cells in table[1:] if cells)
    return tuple(
        ChartRow(int(row[CHANNEL]), {k: cell for k, cell in row.items() if k != CHANNEL and cell})
        for row in rows
    )


def slips(sheet: PlanSheet, rows: Sequence[ChartRow]) -> tuple[Slip, ...]:
    """Return what a chart prints wrong, in order of its columns, then of its channels.

    A figure that is the right one rounded to the decimals of its column is right.
    """
    columns = dict.fromkeys(column for row in rows for column in row.printed)
    return tuple(slip for column in columns for slip in _in_column(sheet, rows, column))


def _in_column(sheet: PlanSheet, rows: Sequence[ChartRow], column: str) -> Iterator[Slip]:
    """Yield the slips of one column, neighbours with the same difference together."""
    cells = {row.channel: row.printed[column] for row in rows if column in row.printed}
    places = max(len(cell.partition(".")[2]) for cell in cells.values())
    rounding = Fraction(1, 2 * 10**places) if places else Fraction(0)
    run: list[tuple[int, str, Fraction]] = []
    for row in sheet.channels:
        if row.channel not in cells:
            continue
        printed, right = cells[row.channel], _right(row, column)
        off = Fraction(printed) - right
        if run and (abs(off) <= rounding or off != Fraction(run[-1][1]) - run[-1][2]):
            yield _slip(column, run)
            run = []
        if abs(off) > rounding:
            run.append((row.channel, printed, right))
    if run:
        yield _slip(column, run)


def _slip(column: str, run: list[tuple[int, str, Fraction]]) -> Slip:
    channels, printed, right = zip(*run, strict=True)
    return Slip(column, channels, printed, right)


def _right(row: ChannelRow, column: str) -> Fraction:
    return COLUMNS[column](row) if column in COLUMNS else Fraction(row.lines[column])


def _head_problems(file: str, head: Sequence[str], sheet: PlanSheet) -> Iterator[Problem]:
    lines = sheet.plan.lines.weights if sheet.plan.lines else {}
    known = [CHANNEL, *COLUMNS, *lines]
    if CHANNEL not in head:
        remedy = f"Begin with the names of the columns, such as {CHANNEL},frequency,n,vco,lo."
        yield Problem(file, 1, "(head)", f"no '{CHANNEL}'", f"a column '{CHANNEL}'", remedy)
    for column in head:
        if column not in known:
            yield Problem(file, 1, column, f"'{column}'", "a known column", suggest(column, known))
        elif head.count(column) > 1:
            yield Problem(file, 1, column, "it twice", "each column once", "Take one out.")


def _row_problems(
    file: str, line: int, head: Sequence[str], cells: Sequence[str], sheet: PlanSheet
) -> Iterator[Problem]:
    if not cells:
        return
    if len(cells) != len(head):
        remedy = "Leave a cell empty where nothing is printed, but keep its comma."
        expected = f"{len(head)} cells"
        yield Problem(file, line, "(row)", f"{len(cells)} cells", expected, remedy)
        return
    for column, cell in zip(head, map(str.strip, cells), strict=True):
        if column == CHANNEL and cell not in {str(channel) for channel in sheet.plan.carriers}:
            remedy = f"The plan has {len(sheet.plan.carriers)} channels."
            yield Problem(file, line, column, f"'{cell}'", "a channel of the plan", remedy)
        elif column != CHANNEL and cell and not NUMBER.match(cell):
            remedy = "Write frequencies in MHz with a point, counts and lines as whole numbers."
            yield Problem(file, line, column, f"'{cell}'", "a number, or nothing", remedy)
