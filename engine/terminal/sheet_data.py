"""A worked-out plan as plain records for a script. Frequencies are in Hz, exact, as text."""

from fractions import Fraction
from typing import Any

from engine.radio.plans.chart import Slip
from engine.radio.plans.sheet import ChannelRow, PlanSheet, PointRow
from engine.radio.plans.stuck import StuckEffect

Data = dict[str, Any]


def sheet_data(sheet: PlanSheet) -> Data:
    """Return everything a plan says in one mode."""
    plan = sheet.plan
    oscillators = {name: exact(each.hz) for name, each in plan.oscillators.items()}
    return {
        "plan": plan.id,
        "title": plan.title,
        "about": plan.about,
        "source": plan.source,
        "mode": sheet.mode,
        "modes": list(plan.modes),
        "oscillators_hz": oscillators,
        "channels": [_channel(row) for row in sheet.channels],
        "points": [_point(row) for row in sheet.points],
        "stuck_lines": [_stuck(effect) for effect in sheet.stuck],
        "notes": list(plan.notes),
    }


def slip_data(slip: Slip) -> Data:
    """Return one slip of a printed chart; figures in the unit of its column."""
    return {
        "column": slip.column,
        "channels": list(slip.channels),
        "printed": list(slip.printed),
        "right": [exact(each) for each in slip.right],
        "by": exact(slip.by),
    }


def exact(number: Fraction) -> str:
    """Return a fraction as a decimal where that is exact, else as a fraction.

    >>> exact(Fraction(33857500, 3)), exact(Fraction(5, 2)), exact(Fraction(10))
    ('33857500/3', '2.5', '10')
    """
    places = next((n for n in range(7) if (number * 10**n).denominator == 1), None)
    return str(number) if places is None else f"{float(number):.{places}f}"


def _point(row: PointRow) -> Data:
    ends = {"first_hz": exact(row.first_hz), "last_hz": exact(row.last_hz)}
    return {"title": row.title, **ends, "hz_per_ppm": row.hz_per_ppm}


def _stuck(effect: StuckEffect) -> Data:
    shifts = {str(channel): exact(by) for channel, by in effect.shifts_hz.items()}
    fault = {"line": effect.fault.line, "state": effect.fault.state}
    return {**fault, "shifts_hz": shifts, "no_lock": list(effect.lost)}


def _channel(row: ChannelRow) -> Data:
    return {
        "channel": row.channel,
        "carrier_hz": exact(row.carrier_hz),
        "n_receive": row.n_receive,
        "n_transmit": row.n_transmit,
        "vco_receive_hz": exact(row.vco_receive_hz),
        "vco_transmit_hz": exact(row.vco_transmit_hz),
        "lo_hz": exact(row.lo_hz),
        "transmit_hz": exact(row.transmit_hz),
        "image_hz": exact(row.image_hz),
        "lines": row.lines,
    }
