"""What is wanted under a rule set: a limit is never passed, whatever the figure aims at."""

from dataclasses import replace

from engine.diagnosis.limits import LimitText
from engine.diagnosis.model import SetModel
from engine.diagnosis.settings import WantedText
from engine.radio.figures import shown
from engine.radio.units import convert, unit_of


def under_rules(model: SetModel, wanted: WantedText, rules: str) -> WantedText:
    """Return what is wanted as one rule set has it.

    Both ends stay inside the limit. Where the limit is below what is aimed at, the limit is
    aimed at and the room below it kept.
    """
    limit = limit_of(model, wanted, rules)
    if limit is None or limit.direction != "at-most":
        return replace(wanted, limit="")
    low, high, aim = wanted.low, wanted.high, wanted.aim
    assert low is not None, f"{wanted.said}: a limit goes with a value"
    assert high is not None
    assert aim is not None
    most = limit.value
    if low < 0.0 <= high:  # an error, to either side
        low, high = max(low, -most), min(high, most)
    else:
        low = min(low, float(shown(most - (aim - low))))
        high, aim = min(high, most), min(aim, most)
    said = f"{wanted.said}, never above {shown(most)} {limit.unit} ({limit.id} of {rules})"
    return replace(wanted, said=said, low=low, high=high, aim=aim)


def limit_of(model: SetModel, wanted: WantedText, rules: str) -> LimitText | None:
    """Return the limit of a thing wanted, in its unit; None where these rules have none.

    Parts per million are of the lowest channel, the strictest.
    """
    text = model.setting_up
    limit = text.limits[rules].get(wanted.limit) if text is not None else None
    if limit is None:
        return None
    if limit.unit == "ppm" and wanted.unit != "ppm":
        carrier_mhz = min(mhz for _, mhz in model.carriers_mhz)
        limit = replace(limit, value=limit.value * carrier_mhz, unit="Hz")
    given, asked = unit_of(limit.unit), unit_of(wanted.unit)
    turned = convert(limit.value, given, asked) if given and asked else None
    assert turned is not None, f"{limit.id}: {limit.unit} cannot be held to {wanted.unit}"
    return replace(limit, value=float(shown(turned)), unit=wanted.unit)
