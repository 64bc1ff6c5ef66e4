"""A worked-out plan as tables of short text, the same in a terminal and on a page."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from engine.radio.plans.sheet import PlanSheet, PointRow
from engine.radio.plans.stuck import StuckEffect
from engine.radio.plans.writing import evenly_mhz, figure, mhz, runs

FEW = 2  # shifts that are named one by one; of more, the ends
LONGEST_LIST = 40  # characters of a list of channels


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of text under a head; the first column names the row."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


def plan_tables(sheet: PlanSheet) -> tuple[Table, ...]:
    """Return the channels, the lines, the points and what a stuck line does."""
    tables = (channel_table(sheet), line_table(sheet), point_table(sheet), stuck_table(sheet))
    return tuple(table for table in tables if table.rows)


def channel_table(sheet: PlanSheet) -> Table:
    """Return count and frequencies of every channel, in MHz."""
    rows, twice = sheet.channels, sheet.has_two_counts
    columns = {
        "ch": [str(row.channel) for row in rows],
        "MHz": evenly_mhz([row.carrier_hz for row in rows]),
        "N rx" if twice else "N": [str(row.n_receive) for row in rows],
        "N tx": [str(row.n_transmit) for row in rows],
        "VCO rx" if twice else "VCO": evenly_mhz([row.vco_receive_hz for row in rows]),
        "VCO tx": evenly_mhz([row.vco_transmit_hz for row in rows]),
        "LO": evenly_mhz([row.lo_hz for row in rows]),
        "transmit": evenly_mhz([row.transmit_hz for row in rows]),
        "image": evenly_mhz([row.image_hz for row in rows]),
    }
    if not twice:
        del columns["N tx"], columns["VCO tx"]
    cells = tuple(zip(*columns.values(), strict=True))
    return Table("Channels", tuple(columns), cells, "Frequencies in MHz. LO: first oscillator.")


def line_table(sheet: PlanSheet) -> Table:
    """Return the state of every line on every channel; no rows when no lines are known."""
    lines = sheet.plan.lines
    if lines is None:
        return Table("Programming lines", (), ())
    rows = tuple(
        (str(row.channel), str(lines.codes[row.channel]), *map(str, row.lines.values()))
        for row in sheet.channels
    )
    wired = [f"{name} to {state}" for name, state in lines.fixed.items()]
    note = f"An open line reads {lines.open_state}."
    if wired:
        note += f" Wired for good: {', '.join(wired)}."
    code = "code" if lines.coding == "rom" else "N"
    return Table("Programming lines", ("ch", code, *lines.weights), rows, note)


def point_table(sheet: PlanSheet) -> Table:
    """Return what stands at each point, and how each crystal shows there."""
    channels = list(sheet.plan.carriers)
    names = [
        name
        for name in sheet.plan.oscillators
        if any(name in row.hz_per_ppm for row in sheet.points)
    ]
    head = ("point", f"ch {channels[0]}", f"ch {channels[-1]}", *names)
    rows = tuple(_point_cells(row, names) for row in sheet.points)
    note = (
        f"Frequencies in MHz. Behind them: Hz for 1 ppm of each crystal, on channel {channels[0]}."
    )
    return Table("Test points", head, rows, note)


def _point_cells(row: PointRow, names: Sequence[str]) -> tuple[str, ...]:
    shifts = (row.hz_per_ppm.get(name) for name in names)
    told = ("" if shift is None else _signed(figure(shift, 3)) for shift in shifts)
    return (row.title, mhz(row.first_hz), mhz(row.last_hz), *told)


def stuck_table(sheet: PlanSheet) -> Table:
    """Return what every line does when stuck at 0 and at 1."""
    head = ("line", "stuck at", "wrong", "shift kHz", "no lock", "channels")
    rows = tuple(_stuck_cells(effect) for effect in sheet.stuck)
    note = "Wrong: channels sent elsewhere. No lock: no count, or none that the VCO can follow."
    return Table("What a stuck line does", head, rows, note)


def _stuck_cells(effect: StuckEffect) -> tuple[str, ...]:
    wrong, lost, state = effect.shifts_hz, effect.lost, effect.fault.state
    numbers = (str(len(wrong)), ", ".join(_shifts(effect)), str(len(lost)))
    where = runs([*wrong, *lost])
    if len(where) > LONGEST_LIST:
        where = f"all on which it should be {1 - state}"
    return (effect.fault.line, str(state), *numbers, where)


def _shifts(effect: StuckEffect) -> Iterator[str]:
    shifts = sorted(set(effect.shifts_hz.values()))
    words = [_signed(figure(hz / 1000, 3)) for hz in shifts]
    yield from words if len(words) <= FEW else (f"{words[0]} to {words[-1]}",)


def _signed(number: str) -> str:
    return number if number.startswith("-") or number == "0" else f"+{number}"
