"""Checks that read a frequency: one for each channel on which it can be read.

Their ids end in the channel, as in `operating.transmit-error@20`; an oscillator has no channels.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from engine.diagnosis.frequencies.model import FREQUENCIES, AtPoint, FrequencyModel, Sound
from engine.diagnosis.frequencies.points import expected, uses_loop
from engine.diagnosis.model import CheckText
from engine.inference.gain import Channel
from engine.radio.units import unit_of

NO_CHANNEL = Channel((), (), ())  # the gain comes from the plan
PPM = 1e-6


def on_every_channel(
    checks: Mapping[str, CheckText], frequencies: FrequencyModel | None
) -> dict[str, CheckText]:
    """Return all checks, those that read a frequency once for each channel."""
    if frequencies is None:
        return dict(checks)
    found: dict[str, CheckText] = {}
    for check in checks.values():
        rows = [check] if check.at is None else _instances(check, check.at, frequencies)
        found |= {each.id: each for each in rows}
    return found


def once(checks: Mapping[str, CheckText]) -> dict[str, CheckText]:
    """Return what `on_every_channel` was given: those that read a frequency once only."""
    found: dict[str, CheckText] = {}
    for check in checks.values():
        if check.at is None:
            found[check.id] = check
        elif check.at.check not in found:
            title = check.title.removesuffix(_on(check.at))
            at = replace(check.at, channel=0)
            found[check.at.check] = replace(
                check, id=check.at.check, title=title, nominal_mhz=None, at=at
            )
    return found


def hz_read(check: CheckText, value: float) -> float:
    """Return the frequency that was read, from an error in the unit of the check."""
    assert check.nominal_mhz is not None
    nominal_hz = check.nominal_mhz * 1e6
    if check.unit == "ppm":
        return nominal_hz * (1.0 + value * PPM)
    unit = unit_of(str(check.unit))
    assert unit is not None, "knowledge gives frequencies in Hz"
    return nominal_hz + value * unit.factor


def _instances(check: CheckText, at: AtPoint, frequencies: FrequencyModel) -> Iterator[CheckText]:
    channels = list(frequencies.plan.carriers) if uses_loop(at.point) else [0]
    for channel in channels:
        here = replace(at, channel=channel)
        right = expected(frequencies, at.point, at.mode, channel or 1, Sound())
        assert right is not None, "a plan's own counts are in reach"
        name = f"{at.check}@{channel}" if channel else at.check
        yield replace(
            check,
            id=name,
            title=f"{check.title}{_on(here)}",
            looks_at=FREQUENCIES,
            nominal_mhz=round(right.hz) / 1e6,
            channel=NO_CHANNEL,
            at=here,
        )


def _on(at: AtPoint) -> str:
    return f", channel {at.channel}" if at.channel else ""
