"""The screen that sets a set up: which sheet, cautions, every step in order by chapter."""

from collections.abc import Iterator
from itertools import groupby
from xml.etree.ElementTree import Element

from engine.setting_up.guiding import Standing
from engine.setting_up.words import DEFER, standing_words
from web.set_up_log import AFTER_REPAIR, EVERYTHING
from web.views.frame import for_a_bench, heading, steps
from web.views.markup import button, h, puts, shows
from web.views.setting.state import Setting, badge_words, counted
from web.views.setting.step import setting_step

LEAD = (
    "One adjustment after the other, in the order in which none spoils the one before. Write what "
    "you found and what you set it to; what has to be done again is told at once."
)
NOT_YET = (
    "Nothing can be set up while it is open which kind of set it is. Settle the kind first, at the "
    "bench."
)
LID_ON = (
    "You said that the lid stays on. Then this screen is not for you: it is for a bench, once the "
    "fault is found and mended. Nothing on it helps to find a fault."
)
NO_SHEET = "Nothing is written of how this set is set up."
NO_REPAIR = "Once a repair is entered, only what it upsets is listed."
SHEETS = {AFTER_REPAIR: "Only what the repair makes necessary", EVERYTHING: "The whole set"}
NOTHING = "Nothing has to be set up after what was put right."


def no_setting_screen(is_open: bool) -> list[Element]:
    """Return the screen of a set that cannot be set up here; `is_open` is its kind."""
    return [
        steps("set-up"),
        heading("Set it up"),
        h("p", {"class": "verdict"}, NOT_YET if is_open else NO_SHEET),
    ]


def setting_screen(setting: Setting) -> list[Element | None]:
    """Return the screen of a set that is set up."""
    return [
        steps("set-up"),
        heading("Set it up"),
        for_a_bench(LID_ON) if setting.state.case.kit.lid == "on" else None,
        h("p", {"class": "lead"}, LEAD),
        h("p", {"class": "private"}, DEFER),
        _standing(setting),
        _which_sheet(setting),
        *_chapters(setting),
        h(
            "p",
            {"class": "row"},
            button("Prove the set", {"id": "then-prove", **shows("title", screen="prove")}),
            button("To the record", shows("title", screen="record")),
        ),
    ]


def _standing(setting: Setting) -> Element:
    """Return how far it has come, and what is next."""
    progress = setting.sheet.progress
    is_stuck = bool(progress.stuck)
    if is_stuck:
        step = progress.stuck[0].step
        words = f"Find the fault behind this first: {step.number}. {step.title}"
    elif progress.next is not None:
        step = progress.next.step
        words = f"Next: {step.number}. {step.title}"
    else:
        words = "Every step is done." if setting.sheet.steps else NOTHING
    stuck = [
        h("li", None, f"{each.step.number}. {each.step.title}: {badge_words(each)}.")
        for each in progress.stuck
    ]
    return h(
        "section",
        {"class": f"verdict{' act' if is_stuck else ''}", "aria-labelledby": "set-up-standing"},
        h("h2", {"id": "set-up-standing", "tabindex": "-1", "class": "sentence"}, words),
        h("p", None, f"{counted(setting.sheet)}."),
        h("ul", None, stuck) if stuck else None,
    )


def _which_sheet(setting: Setting) -> Element:
    """Return the choice between the whole set and what a repair made necessary."""
    text = setting.model.setting_up
    assert text is not None
    rules = setting.sheet.steps[0].rules if setting.sheet.steps else setting.model.family.rules
    repairs = [each.repair.cause for each in setting.state.case.past]
    titles = "; ".join(dict.fromkeys(setting.model.causes[each].title for each in repairs))
    hint = f"Put right so far: {titles}." if repairs else NO_REPAIR
    return h(
        "section",
        {"class": "card", "aria-labelledby": "sheet-title"},
        h("h2", {"id": "sheet-title"}, "Which sheet"),
        h("p", {"class": "row"}, _choice(setting)) if repairs else None,
        h("p", {"class": "hint"}, hint),
        h("p", {"class": "hint"}, f"Values keep to {text.rules.get(rules, rules)} ({rules})."),
    )


def _choice(setting: Setting) -> list[Element]:
    chosen = EVERYTHING if setting.sheet.is_whole else AFTER_REPAIR
    return [
        button(
            words,
            {
                "id": f"sheet-{name}",
                "aria-pressed": "true" if name == chosen else "false",
                "data-focus": f"sheet-{name}",
                **puts("set-up-sheet", sheet=name),
            },
        )
        for name, words in SHEETS.items()
    ]


def _chapters(setting: Setting) -> Iterator[Element]:
    """Yield each chapter with its steps, in order; one may come twice."""
    standings = setting.sheet.progress.standings
    for number, (chapter, group) in enumerate(groupby(standings, lambda one: one.step.chapter)):
        name = f"chapter-{number}"
        items = [_item(setting, each) for each in group]
        yield h("h2", {"id": name}, chapter)
        yield h("ol", {"class": "points", "aria-labelledby": name}, items)


def _item(setting: Setting, standing: Standing) -> Element:
    """Return one step, unfolded while it is at hand or somebody opened it."""
    step, state = standing.step, standing.state
    is_unfolded = step.id == setting.unfolded
    is_open = is_unfolded or _is_at_hand(setting, standing)
    name = f"head-{step.id}"
    head = {
        "class": "cause-title",
        "id": name,
        "aria-expanded": "true" if is_open else "false",
        **shows(name, step="" if is_unfolded else step.id),
    }
    badge = h("small", {"class": "badge"}, f" {badge_words(standing)}")
    words = standing_words(setting.model, standing) if state not in ("to-do", "holds") else ""
    return h(
        "li",
        {"class": f"point step card {state}", "id": f"step-{step.id}", "data-state": state},
        h("h3", None, button(f"{step.number}. {step.title}", head, badge)),
        h("p", {"class": "hint"}, f"{words[:1].upper()}{words[1:]}.") if words else None,
        setting_step(setting, standing) if is_open else None,
    )


def _is_at_hand(setting: Setting, standing: Standing) -> bool:
    """Whether a step is the next one, the latest one, or has something that needs a look."""
    step, following = standing.step, setting.sheet.progress.next
    is_next = following is not None and following.step is step
    is_latest = step.id == setting.last
    return is_next or is_latest or standing.state == "stuck" or setting.problem_of(step) is not None
