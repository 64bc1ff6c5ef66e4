from typing import Any

import pytest

from engine.diagnosis.model import SetModel
from tests.web.test_views import after
from web.answering import bench_of
from web.replaying import replay
from web.views.last_kit import last_kit
from web.views.markup import html
from web.views.page import later
from web.views.state import Bench, Shown

KEPT = {"instruments": ["multimeter", "gone"], "lid": "off", "ppm": "2"}


def empty(model: SetModel) -> Bench:
    """Return a case in which nothing was said of a kit."""
    return bench_of(model, replay(model, []))


def test_the_last_kit_is_offered_in_words(small_model: SetModel) -> None:
    """What is kept is named, without instruments this set does not know."""
    parts = later(empty(small_model), Shown("kit", last_kit=KEPT), "kit", "0")
    assert 'data-act="last-kit"' in parts["last-kit"]
    assert "Multimeter, counter within 2 ppm, lid off." in parts["last-kit"]


@pytest.mark.parametrize(
    "kept", [None, {}, {**KEPT, "ppm": "much"}, {"instruments": [], "lid": "on"}], ids=str
)
def test_nothing_is_offered_where_it_would_not_help(small_model: SetModel, kept: Any) -> None:
    """Nothing kept, something damaged, or the kit there is: no offer."""
    assert last_kit(empty(small_model), Shown("kit", last_kit=kept)) is None


def test_a_kit_in_hand_is_not_offered_again(small_model: SetModel) -> None:
    """The kit of the case itself is no news."""
    now = after(small_model)
    kept = {"instruments": ["multimeter", "power-meter", "dummy-load"], "lid": "off"}
    assert last_kit(now, Shown("kit", last_kit=kept)) is None
    assert html(last_kit(now, Shown("kit", last_kit=KEPT))).startswith('<p class="last-kit">')
