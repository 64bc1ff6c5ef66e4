"""What a check costs the person at the bench: its own minutes, and getting ready for it."""

from collections.abc import Callable

from engine.diagnosis.advising.steps import WORTH_ASKING, WORTH_DOING
from engine.diagnosis.case import Case
from engine.diagnosis.model import CheckText, SetModel


def effort(model: SetModel, case: Case) -> Callable[[CheckText], float]:
    """Return what tells the minutes a check takes now, all told.

    To the minutes of the check come those that every check at the bench takes, the lid if no
    earlier check had it off, and each instrument no earlier check needed. A symptom or question
    takes no bench until the set is on one: then it is one more thing to turn to.
    """
    is_ready = _bench_is_ready(model, case)
    at_hand = {name for check in _made(model, case) for name in check.needs}
    is_open = lid_is_off(model, case)

    def minutes(check: CheckText) -> float:
        fresh = (name for name in check.needs if name not in at_hand)
        ready = sum(model.instruments[name].ready_min for name in fresh)
        lid = model.handling.lid_min if check.lid == "off" and not is_open else 0.0
        place = 0.0 if check.is_asked and not is_ready else model.handling.each_min
        return check.minutes + place + ready + lid

    return minutes


def lid_is_off(model: SetModel, case: Case) -> bool:
    """Whether an earlier check had the lid off."""
    return any(check.lid == "off" for check in _made(model, case))


def least_share(model: SetModel, case: Case) -> Callable[[CheckText], float]:
    """Return what tells the share of the best gain from which on a check is chosen for its ease.

    A question to the owner need not tell so much as long as nothing was measured and the lid is
    on: it may spare the bench. Later it would only be one more step, and where knowledge gives no
    minutes for a check at the bench there is nothing to spare.
    """
    spares = model.handling.each_min > 0.0 and not _bench_is_ready(model, case)
    return lambda check: WORTH_ASKING if check.is_asked and spares else WORTH_DOING


def _made(model: SetModel, case: Case) -> list[CheckText]:
    return [model.checks[each.check] for each in case.all_findings() if each.is_evidence]


def _bench_is_ready(model: SetModel, case: Case) -> bool:
    """Whether something was measured, or the lid was off."""
    return any(check.needs or check.lid == "off" for check in _made(model, case))
