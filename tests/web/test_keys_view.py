import re

from engine.diagnosis.model import SetModel
from tests.web.test_views import after
from web.views.check import check_at_hand
from web.views.keys import KEYS, keys_panel
from web.views.markup import html
from web.views.state import Shown


def test_answers_carry_their_keys(small_model: SetModel) -> None:
    """Each answer shows its number, in order, and tells it to a screen reader; N passes."""
    card = html(check_at_hand(after(small_model), Shown(check="sender.weak")))
    assert re.findall(r'aria-keyshortcuts="(\w)"', card) == ["1", "2", "3", "N"]
    assert re.findall(r'<kbd aria-hidden="true">(\w)</kbd>', card) == ["1", "2", "3", "N"]


def test_the_panel_lists_every_key_and_its_switch() -> None:
    """All keys are told, and that they can be switched off and on."""
    panel = html(keys_panel())
    assert [name for name, _ in KEYS] == re.findall(r"<kbd>([^<]+)</kbd>", panel)
    assert 'data-act="keys-off"' in panel
    assert 'data-act="keys-on"' in panel
