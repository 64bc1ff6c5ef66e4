"""From the knowledge to how the adjustments of one kind of set are set."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from engine.diagnosis.limits import LimitText
from engine.diagnosis.making.rules_texts import fitting_rules, rule_texts, rules_title
from engine.diagnosis.making.settings_wanted import Read, wanted_texts
from engine.diagnosis.settings import SettingText, SettingUpText, WantedText
from engine.knowledge.hanging import hanging
from engine.knowledge.hanging_frequencies import FrequencyTies
from engine.knowledge.knobs import Knob, check_read
from engine.knowledge.library import Library
from engine.knowledge.schema import Cause, Check, Family
from engine.radio.plans.plan import Plan


def setting_up_text(library: Library, family: Family, plan: Plan | None) -> SettingUpText | None:
    """Return how a family is set up; None where nothing is to be set, or nothing says how.

    Args:
        library: with the blocks of the family only, as it has them.
        family: which family.
        plan: its frequency plan, where it is known.
    """
    if library.setting_up is None:
        return None
    table = library.setting_up
    tied = hanging(family, library.blocks, table, plan)
    if not tied.knobs:
        return None
    ties = FrequencyTies(family, plan, table, tied.knobs)
    settings = {
        name: _setting(library, knob, ties, tied.first[name]) for name, knob in tied.knobs.items()
    }
    rules = {name: rules_title(library, name) for name in fitting_rules(library, family)}
    return SettingUpText(
        chapters={name: chapter.title for name, chapter in table.chapters.items()},
        settings=settings,
        upsets=dict(tied.upsets),
        pairs=tuple((one, other, share) for (one, other), share in tied.pairs.items()),
        usual_error=table.usual_error,
        rules=rules,
        limits={name: _limits(library, name, settings) for name in rules},
    )


def _limits(
    library: Library, rules: str, settings: Mapping[str, SettingText]
) -> dict[str, LimitText]:
    used = {wanted.limit for setting in settings.values() for wanted in setting.wanted}
    return {name: limit for name, limit in rule_texts(library, rules).items() if name in used}


def _setting(
    library: Library, knob: Knob, ties: FrequencyTies, first: tuple[str, ...]
) -> SettingText:
    setting = knob.setting
    name = check_read(library.blocks, knob.block, setting) if setting.reads else None
    check = _check(library, name) if name else None
    needs = setting.needs or (check.needs if check else ())
    read = Read(knob.name, name or "", check, needs, library.instruments, ties)
    return SettingText(
        id=knob.name,
        title=setting.title or _cause(library, knob).title,
        chapter=setting.chapter,
        check=name or "",
        where=setting.where or (check.where if check else ""),
        how=check.how if check else "",
        mode=setting.mode or (check.mode if check else "any"),
        load=check.load if check else "",
        needs=needs,
        apply=setting.apply,
        wanted=tuple(_once(wanted_texts(read, setting.wanted))),
        in_turn=setting.in_turn,
        turn=setting.turn,
        minutes=check.minutes if check else None,
        source=setting.source,
        first=first,
    )


def _cause(library: Library, knob: Knob) -> Cause:
    return library.blocks[knob.block].causes[knob.name.partition(".")[2]]


def _check(library: Library, name: str) -> Check:
    block, _, check = name.partition(".")
    return library.blocks[block].checks[check]


def _once(wanted: Iterator[WantedText]) -> Iterator[WantedText]:
    """Yield what is wanted; a check that several things are read with finds the first of them."""
    seen: set[str] = set()
    for each in wanted:
        yield replace(each, check="") if each.check in seen else each
        seen.add(each.check)
