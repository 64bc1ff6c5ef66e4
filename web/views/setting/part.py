"""Setting up as a part of the record: every adjustment before and after."""

from engine.setting_up.guiding import OPEN
from engine.setting_up.words import DEFER, held_words, wanted_words
from web.views.part import Part, Row
from web.views.setting.state import Setting, badge_words, counted

FEW = 8  # steps that are named
HEADS = ("Adjustment", "Wanted", "Before and after", "Where it stands")


def _not_done(titles: list[str]) -> tuple[str, ...]:
    """Return what is open, by name where that is no more than a line or two."""
    if not titles:
        return ()
    return (f"Not done: {'; '.join(titles) if len(titles) <= FEW else f'{len(titles)} steps'}.",)


def setting_part(setting: Setting) -> Part:
    """Return the steps that were visited, those that are open, and what was set before a repair."""
    standings = setting.sheet.progress.standings
    rows = tuple(
        Row(
            f"{each.step.number}. {each.step.title}",
            (
                "; ".join(wanted_words(each.step)),
                "; ".join(held_words(row) for row in each.judged.rows),
                badge_words(each),
            ),
        )
        for each in standings
        if each.judged is not None
    )
    still = [each.step.title for each in standings if each.state in OPEN]
    earlier = [
        f"Set before a repair that upset it: {setting.model.causes[each.adjustment].title}: "
        + "; ".join(f"{before or '–'} to {after or '–'}" for before, after in each.entries)
        for each in setting.log.undone
        if each.adjustment in setting.model.causes
    ]
    sheet = "the whole set" if setting.sheet.is_whole else "what the repair made necessary"
    lines = (
        f"Sheet: {sheet}. {counted(setting.sheet)}.",
        *_not_done(still),
        *earlier,
        DEFER,
    )
    return Part("Set up", lines, HEADS, rows, kind="set-up")
