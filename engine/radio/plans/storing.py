"""A plan as plain data and back, exact: fractions as text, channels as text keys."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from engine.radio.plans.plan import Counts, Lines, Mode, Oscillator, Plan


def plain(plan: Plan) -> dict[str, Any]:
    """Return a plan as what JSON knows."""
    oscillators, lines, reach = plan.oscillators.values(), plan.lines, plan.vco_reach_hz
    return {
        **{name: getattr(plan, name) for name in ("id", "title", "source", "about")},
        **{name: getattr(plan, name) for name in ("reference", "carrier")},
        **{name: dict(getattr(plan, name)) for name in ("divider_input", "lo", "second_lo")},
        "transmit": dict(plan.transmit),
        "carriers": {str(channel): str(hz) for channel, hz in plan.carriers.items()},
        "grid_hz": str(plan.grid_hz),
        "oscillators": [[each.id, each.title, str(each.hz), each.signal] for each in oscillators],
        "modes": [_plain_mode(each) for each in plan.modes.values()],
        "counts": {
            direction: [_text_keys(each.by_channel), each.divide]
            for direction, each in plan.counts.items()
        },
        "if1_hz": str(plan.if1_hz),
        "if2_hz": str(plan.if2_hz),
        "lines": _plain_lines(lines) if lines else None,
        "vco_reach_hz": [str(end) for end in reach] if reach else None,
        "notes": list(plan.notes),
        "filter_hz": str(plan.filter_hz) if plan.filter_hz else None,
    }


def loaded(data: Mapping[str, Any]) -> Plan:
    """Return the plan that `plain` was given."""
    whole = {"id", "title", "source", "about", "reference", "carrier"}
    whole |= {"divider_input", "lo", "second_lo", "transmit"}
    reach, lines = data["vco_reach_hz"], data["lines"]
    return Plan(
        **{name: data[name] for name in sorted(whole)},
        carriers={int(channel): Fraction(hz) for channel, hz in data["carriers"].items()},
        grid_hz=Fraction(data["grid_hz"]),
        oscillators={
            name: Oscillator(name, title, Fraction(hz), signal)
            for name, title, hz, signal in data["oscillators"]
        },
        modes={row[0]: Mode(*row) for row in data["modes"]},
        counts={
            direction: Counts(_number_keys(by_channel), divide)
            for direction, (by_channel, divide) in data["counts"].items()
        },
        if1_hz=Fraction(data["if1_hz"]),
        if2_hz=Fraction(data["if2_hz"]),
        lines=_lines(lines) if lines else None,
        vco_reach_hz=(Fraction(reach[0]), Fraction(reach[1])) if reach else None,
        notes=tuple(data["notes"]),
        filter_hz=Fraction(data["filter_hz"]) if data["filter_hz"] else None,
    )


def _plain_mode(mode: Mode) -> list[Any]:
    return [mode.id, mode.title, dict(mode.instead), mode.second_if, mode.sideband]


def _plain_lines(lines: Lines) -> list[Any]:
    wired, codes = dict(lines.fixed), _text_keys(lines.codes)
    return [lines.coding, dict(lines.weights), wired, lines.open_state, codes]


def _lines(row: list[Any]) -> Lines:
    coding, weights, fixed, open_state, codes = row
    return Lines(coding, weights, fixed, open_state, _number_keys(codes))


def _text_keys(by_channel: Mapping[int, int]) -> dict[str, int]:
    return {str(channel): number for channel, number in by_channel.items()}


def _number_keys(by_channel: Mapping[str, int]) -> dict[int, int]:
    return {int(channel): number for channel, number in by_channel.items()}
