"""Frequencies as people tell them: `27.7925 on channel 20`, `channel 7`."""

import re

from engine.diagnosis.model import CheckText, SetModel
from engine.errors import UnknownReading

ON_CHANNEL = re.compile(
    r"^(?P<rest>.*?)[\s,;]*\b(?:on|at)\s+(?:channel|chan|ch)\.?\s*(?P<n>\d+)\s*$", re.I
)
HEARD_ON = re.compile(r"^(?:on\s+)?(?:channel|chan|ch)\.?\s*(?P<n>\d+)$", re.I)


def channels_of(model: SetModel, check_id: str) -> dict[int, CheckText]:
    """Return the checks that read the same frequency on other channels, by channel."""
    base = check_id.partition("@")[0]
    return {
        check.at.channel: check
        for check in model.checks.values()
        if check.at is not None and check.at.check == base
    }


def on_its_channel(model: SetModel, check_id: str, text: str) -> tuple[str, str]:
    """Return the check that is meant and what is left to read.

    A check's id without channel stands for the middle of the dial unless `text` ends in
    `on channel N`, which holds in any case.

    Raises:
        UnknownReading: the set has no such channel.
    """
    channels = channels_of(model, check_id)
    if not channels:
        return check_id, text
    said = ON_CHANNEL.match(text)
    if said and any(channels):
        number = int(said["n"])
        if number not in channels:
            expected = f"one of channels {min(channels)} to {max(channels)}"
            remedy = "Write the channel that the knob stood on."
            raise UnknownReading(check_id, f"channel {number}", expected, remedy)
        return channels[number].id, said["rest"]
    if check_id in model.checks:
        return check_id, text
    return list(channels.values())[len(channels) // 2].id, text


def heard_channel(model: SetModel, check: CheckText, text: str) -> str:
    """Return `channel 7` as the frequency of that channel; any other text as it is."""
    heard = HEARD_ON.match(text)
    if not heard or check.at is None or check.at.point != "heard":
        return text
    carriers = dict(model.carriers_mhz)
    number = int(heard["n"])
    return f"{carriers[number]} MHz" if number in carriers else text
