"""Answers about setting up the set at hand: the screen, an unusable entry, where to go on."""

from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading
from engine.setting_up.sheet import Step
from web.answering import CANNOT_USE, MODELS, Fields, own_note
from web.own_counts import model_of
from web.replaying import Input, replay
from web.set_up_case import set_up_case, visit_of
from web.set_up_log import Visited, entries_of
from web.views.markup import html
from web.views.setting.screen import no_setting_screen, setting_screen
from web.views.setting.state import SHORT, Setting, counted
from web.views.state import Refused, Shown


def show_set_up(args: Fields) -> Fields:
    """Return <main> of setting up the case at hand, and a sentence on what was entered last."""
    log = args["log"]
    setting = set_up_of(log, Shown.read(args["view"]).step)
    if setting is None:
        screens = no_setting_screen(log["family"] == NOT_SURE)
        return {"html": html(*screens), "status": "", "accepted": True}
    last = log["inputs"][-1] if log["inputs"] else {"do": "nothing"}
    is_visit = last["do"] in ("set", "unset")
    return {
        "html": html(own_note(log["family"]), *setting_screen(setting)),
        "status": CANNOT_USE if setting.refused else _sentence(setting) if is_visit else "",
        "accepted": setting.refused is None,
        "focus": _focus(setting) if is_visit else None,
    }


def set_up_of(log: Fields, unfolded: str = "") -> Setting | None:
    """Return how far setting up has come, None where nothing says how such a set is set up.

    `unfolded` is the step that was unfolded by hand.
    """
    model, inputs = model_of(MODELS, log), list(log["inputs"])
    if model.setting_up is None:
        return None
    problem = _problem_of_last(model, inputs)
    if problem is not None:
        state, last = replay(model, inputs[:-1]), inputs[-1]
        refused = Refused(str(last["adjustment"]), "", problem)
        return Setting(model, state, set_up_case(model, state), unfolded, refused, last)
    state = replay(model, inputs)
    return Setting(model, state, set_up_case(model, state), unfolded)


def _problem_of_last(model: SetModel, inputs: list[Input]) -> UnknownReading | None:
    """Return why the last input, a visit, cannot be used; None where it can, or is none."""
    if not inputs or inputs[-1]["do"] != "set":
        return None
    last, state = inputs[-1], replay(model, inputs[:-1])
    step = _step(set_up_case(model, state).steps, str(last["adjustment"]))
    if step is None:
        return None
    try:
        visit_of(model, state.case, step, Visited(step.id, entries_of(last)))
    except UnknownReading as problem:
        return problem
    return None


def _step(steps: tuple[Step, ...], name: str) -> Step | None:
    return next((step for step in steps if step.id == name), None)


def _sentence(setting: Setting) -> str:
    """Return what a visit came to, and what is next."""
    standing, following = setting.sheet.standing(setting.last), setting.sheet.progress.next
    told = f"{standing.step.title}: {SHORT[standing.state]}. " if standing else ""
    is_stuck = bool(setting.sheet.progress.stuck)
    then = f" Next: {following.step.title}." if following and not is_stuck else ""
    return f"{told}{counted(setting.sheet)}.{then}"


def _focus(setting: Setting) -> str:
    """Return where to go on: the field that was refused, what is off, or the next step."""
    if setting.refused is not None:
        return f"before-0-{setting.refused.check}"
    standing, following = setting.sheet.standing(setting.last), setting.sheet.progress.next
    if standing is not None and standing.state in ("off", "stuck"):
        return f"told-{standing.step.id}"
    return f"before-0-{following.step.id}" if following else "set-up-standing"
