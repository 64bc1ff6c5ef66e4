"""The set-up sheet of this very set: steps in order, with what is wanted under the chosen rules.

`steps` is where the page and the terminal begin; nothing here needs more than the set model.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from engine.diagnosis.case import Case
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.settings import SettingText, SettingUpText, WantedText
from engine.errors import UnknownReading, suggest
from engine.setting_up.limiting import under_rules
from engine.setting_up.ordering import Group, set_up_order
from engine.setting_up.reach import Reason, needed_after

EVERYTHING = Reason("everything")


@dataclass(frozen=True, slots=True)
class Step:
    """One adjustment as it is to be made.

    `wanted` is as the chosen rules have it. `first` names the steps of this sheet right before
    it, `disturbs` those that it moves. `together` are the adjustments it is set in turn with,
    itself among them, and `visits` the shortest row of visits for these, both empty for one that
    stands alone; no visits mean round and round until all hold. `missing` are instruments that
    the kit lacks.
    """

    number: int  # from 1
    id: str  # of the adjustment, and its cause
    title: str  # what is turned
    chapter: str  # its title
    reason: Reason
    setting: SettingText
    wanted: tuple[WantedText, ...]
    cautions: tuple[str, ...]
    first: tuple[str, ...]
    disturbs: tuple[str, ...]
    together: tuple[str, ...]
    visits: tuple[str, ...]
    missing: tuple[str, ...]
    rules: str


def steps(
    model: SetModel, case: Case, after: Collection[str] | None = None, rules: str = ""
) -> tuple[Step, ...]:
    """Return the steps of setting up a set, in order.

    Args:
        model: one kind of set; a mixture of kinds has no steps.
        case: the set on the bench; its kit tells which instruments are there.
        after: causes that were put right: only what this makes necessary. None for everything.
        rules: a rule set made for the set's channels; its own where none is named.

    Raises:
        UnknownReading: no such rule set here, or a cause in `after` that the set does not have.
    """
    text = model.setting_up
    if text is None:
        return ()
    rules = rules_of(model, text, rules)
    reasons = _reasons(model, text, after)
    groups = [
        replace(group, names=kept)
        for group in set_up_order(text)
        if (kept := tuple(name for name in group.names if name in reasons))
    ]
    order = [(name, group) for group in groups for name in group.names]
    return tuple(
        _step(model, case, number, name, group, rules, reasons)
        for number, (name, group) in enumerate(order, 1)
    )


def put_right(case: Case) -> tuple[str, ...]:
    """Return the causes that were put right in a case, in order of time; for `steps(after=...)`."""
    return tuple(dict.fromkeys(stretch.repair.cause for stretch in case.past))


def rules_of(model: SetModel, text: SettingUpText, name: str) -> str:
    """Return a rule set made for the set's channels; its own where none is named.

    Raises:
        UnknownReading: there is no such rule set for these channels.
    """
    chosen = name or model.family.rules
    if chosen not in text.rules:
        expected, remedy = f"one of {', '.join(text.rules)}", suggest(chosen, text.rules)
        raise UnknownReading("rules", f"'{chosen}'", expected, remedy)
    return chosen


def _reasons(
    model: SetModel, text: SettingUpText, after: Collection[str] | None
) -> Mapping[str, Reason]:
    if after is None:
        return dict.fromkeys(text.settings, EVERYTHING)
    for cause in after:
        if cause not in model.causes:
            expected, remedy = "a cause of this set", suggest(cause, model.causes)
            raise UnknownReading("after", f"'{cause}'", expected, remedy)
    return needed_after(text, after)


def _step(
    model: SetModel,
    case: Case,
    number: int,
    name: str,
    group: Group,
    rules: str,
    reasons: Mapping[str, Reason],
) -> Step:
    text = model.setting_up
    assert text is not None
    setting, cause = text.settings[name], model.causes[name]
    several = len(group.names) > 1
    return Step(
        number=number,
        id=name,
        title=setting.title,
        chapter=text.chapters[setting.chapter],
        reason=reasons[name],
        setting=setting,
        wanted=tuple(under_rules(model, each, rules) for each in setting.wanted),
        cautions=tuple(_cautions(model, setting, cause.cautions)),
        first=_nearest(text, [one for one in setting.first if one in reasons]),
        disturbs=text.upsets.get(name, ()),
        together=group.names if several else (),
        visits=group.visits if several else (),
        missing=tuple(one for one in setting.needs if one not in case.kit.instruments),
        rules=rules,
    )


def _cautions(model: SetModel, setting: SettingText, own: Collection[str]) -> Iterator[str]:
    """Yield the cautions of an adjustment and of the check it is read with, each once."""
    check = check_of(model, setting)
    yield from dict.fromkeys((*own, *(check.cautions if check else ())))


def check_of(model: SetModel, setting: SettingText) -> CheckText | None:
    """Return the check an adjustment is read with, on the first channel it has been made for."""
    named = (each.check for each in setting.wanted if each.check in model.checks)
    return model.checks.get(setting.check) or next((model.checks[one] for one in named), None)


def _nearest(text: SettingUpText, first: Collection[str]) -> tuple[str, ...]:
    """Return those of the adjustments before one that come before no other of them."""
    behind = {one for each in first for one in text.settings[each].first}
    return tuple(one for one in first if one not in behind)
