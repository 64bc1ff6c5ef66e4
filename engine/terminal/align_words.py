"""A set-up sheet in words for the terminal: cautions first, then numbered steps by chapter."""

from collections.abc import Iterator, Sequence

from engine.diagnosis.model import SetModel
from engine.setting_up.sheet import Step
from engine.setting_up.words import (
    DEFER,
    numbers_of,
    reason_words,
    together_words,
    wanted_words,
)
from engine.terminal.report import filled


def sheet_lines(
    model: SetModel, sheet: Sequence[Step], rules: str, after: Sequence[str] | None
) -> Iterator[str]:
    """Yield the whole sheet: cautions first, then the steps by chapter."""
    yield from head_lines(model, rules, after)
    if not sheet:
        yield "\nNothing has to be set up after that."
        return
    yield from caution_lines(model, sheet)
    chapter, by_name = "", {step.id: step for step in sheet}
    for step in sheet:
        if step.chapter != chapter:
            yield f"\n{step.chapter}"
        chapter = step.chapter
        yield "\n" + "\n".join(step_lines(model, step, by_name))
    yield f"\n{filled(DEFER).strip()}"


def caution_lines(model: SetModel, sheet: Sequence[Step]) -> Iterator[str]:
    """Yield every caution of the steps, to be read before the first."""
    yield "\nBefore the first step:"
    for name in dict.fromkeys(caution for step in sheet for caution in step.cautions):
        yield filled(f"! {model.cautions[name].title}: {model.cautions[name].text}")


def head_lines(model: SetModel, rules: str, after: Sequence[str] | None) -> Iterator[str]:
    """Yield which set this is, which rules its values keep to, and after what it is set up."""
    assert model.setting_up is not None
    yield model.family.title
    yield f"Values keep to {model.setting_up.rules[rules]} ({rules})"
    if after is not None:
        yield "Only what is needed after: " + "; ".join(model.causes[one].title for one in after)


def step_lines(model: SetModel, step: Step, sheet: dict[str, Step]) -> Iterator[str]:
    """Yield one step as it is to be made; its cautions come before anything to do."""
    setting = step.setting
    yield f"{step.number}. {step.title} ({step.id})"
    if step.cautions:
        yield filled("! " + "; ".join(model.cautions[one].title for one in step.cautions))
    moves = [one for one in step.disturbs if one not in step.together]
    for head, text in (
        ("Why", reason_words(model, step.reason)),
        ("After", numbers_of(step.first, sheet)),
        ("Mode", "" if setting.mode == "any" else setting.mode),
        ("Load", setting.load),
        ("With", "; ".join(_instrument(model, step, one) for one in setting.needs)),
        ("Apply", setting.apply),
        ("Where", setting.where),
        ("Look", setting.how),
        *(("Wanted", words) for words in wanted_words(step)),
        ("Turn", setting.turn),
        ("Together", together_words(model, step)),
        ("Moves", numbers_of(moves, sheet)),
        ("Source", setting.source),
    ):
        if text:
            yield filled(f"{head}: {text}")


def _instrument(model: SetModel, step: Step, name: str) -> str:
    title = model.instruments[name].title if name in model.instruments else name
    return f"{title} (NOT IN THE KIT)" if name in step.missing else title
