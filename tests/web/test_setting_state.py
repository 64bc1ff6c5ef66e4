"""Where a step of setting up stands, on the page."""

from typing import get_args

from engine.setting_up.guiding import OPEN, State
from web.views.setting.state import DONE, MARKS, SHORT


def test_every_state_has_its_mark_and_word() -> None:
    """And is open, done, or leads back to diagnosis."""
    known = set(get_args(State))
    assert set(MARKS) == set(SHORT) == known
    assert {*OPEN, *DONE, "stuck"} == known
