"""What a repair, or an adjustment that is turned, makes it necessary to look at again."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Literal

from engine.diagnosis.settings import SettingUpText

Kind = Literal["everything", "itself", "moved", "if-turned", "looked-through"]


@dataclass(frozen=True, slots=True)
class Reason:
    """Why an adjustment is looked at.

    `everything`: the whole set is gone through. `itself`: it was turned or put right. `moved`: by
    what was done to the causes in `by`. `if-turned`: only if one of the adjustments in `by` had to
    be turned. `looked-through`: it was set while the ones in `by`, which come before it, were not.
    """

    kind: Kind
    by: tuple[str, ...] = ()


def needed_after(text: SettingUpText, causes: Collection[str]) -> dict[str, Reason]:
    """Return the adjustments to be looked at after these causes were put right, with reasons.

    What was done moves some for certain; those move others in turn, if they had to be turned.
    """
    found = {name: Reason("itself") for name in causes if name in text.settings}
    for name in text.settings:
        movers = tuple(cause for cause in causes if name in text.upsets.get(cause, ()))
        if movers and name not in found:
            found[name] = Reason("moved", movers)
    edge = list(found)
    while edge:
        by = edge.pop(0)
        for name in text.upsets.get(by, ()):
            if name not in found:
                edge.append(name)
                found[name] = Reason("if-turned")
    return {
        name: Reason(each.kind, _movers(text, found, name)) if each.kind == "if-turned" else each
        for name, each in found.items()
    }


def redo(text: SettingUpText, done: Collection[str], turned: str) -> dict[str, Reason]:
    """Return those of the adjustments that are `done` which `turned` makes necessary again.

    Args:
        text: how the set is set up.
        done: adjustments that had been set, before `turned` was.
        turned: the adjustment that was turned now, in or out of order.

    Returns:
        In order of knowledge, each with why: `turned` moves it, or comes before it and was not
        right when it was set; or it hangs on one of those, if that has to be turned.
    """
    found = {}
    for name, setting in text.settings.items():
        if name not in done or name == turned:
            continue
        if name in text.upsets.get(turned, ()):
            found[name] = Reason("moved", (turned,))
        elif turned in setting.first:
            found[name] = Reason("looked-through", (turned,))
    for name in (each for each in needed_after(text, [*found]) if each in done):
        if name not in found and name != turned:
            found[name] = Reason("if-turned", _movers(text, found, name))
    return {name: found[name] for name in text.settings if name in found}


def _movers(text: SettingUpText, found: Iterable[str], name: str) -> tuple[str, ...]:
    return tuple(each for each in found if name in text.upsets.get(each, ()))
