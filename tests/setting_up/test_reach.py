"""What a repair, or an adjustment turned out of order, makes it necessary to look at again."""

from collections.abc import Mapping

import pytest

from engine.diagnosis.settings import SettingText, SettingUpText
from engine.setting_up.ordering import topological
from engine.setting_up.reach import Reason, needed_after, redo

FIRST: Mapping[str, tuple[str, ...]] = {
    "rail": (),
    "reference": ("rail",),
    "vco": ("rail", "reference"),
    "peak": ("vco",),
    "power": ("peak",),
    "meter": ("power",),
}
UPSETS = {
    "crystal": ("reference",),
    "transistor": ("peak", "power"),
    "rail": ("reference", "vco"),
    "peak": ("power",),
    "power": ("meter",),
}


def setting(name: str) -> SettingText:
    """Return an adjustment of an invented set."""
    return SettingText(
        name, name, "all", "", "", "", "any", "", (), "", (), False, "", None, "", FIRST[name]
    )


@pytest.fixture
def text() -> SettingUpText:
    """Return an invented set, worked by hand below."""
    settings = {name: setting(name) for name in FIRST}
    return SettingUpText({"all": "All"}, settings, UPSETS, (), 10.0)


@pytest.mark.parametrize(
    ("causes", "needed"),
    [
        (["crystal"], {"reference": Reason("moved", ("crystal",))}),
        (
            ["transistor"],
            {
                "peak": Reason("moved", ("transistor",)),
                "power": Reason("moved", ("transistor",)),
                "meter": Reason("if-turned", ("power",)),
            },
        ),
        (
            ["peak", "crystal"],
            {
                "peak": Reason("itself"),
                "reference": Reason("moved", ("crystal",)),
                "power": Reason("moved", ("peak",)),
                "meter": Reason("if-turned", ("power",)),
            },
        ),
        (["knob"], {}),
    ],
)
def test_what_is_needed_after_a_repair(
    causes: list[str], needed: dict[str, Reason], text: SettingUpText
) -> None:
    """What was done moves some for certain; those move others only if they had to be turned."""
    assert needed_after(text, causes) == needed


@pytest.mark.parametrize(
    ("done", "turned", "again"),
    [
        (["reference", "vco", "peak"], "peak", {}),
        (
            ["reference", "vco", "peak"],
            "rail",
            {
                "reference": Reason("moved", ("rail",)),
                "vco": Reason("moved", ("rail",)),
            },
        ),
        (["peak", "power", "meter"], "vco", {
            "peak": Reason("looked-through", ("vco",)),
            "power": Reason("if-turned", ("peak",)),
            "meter": Reason("if-turned", ("power",)),
        }),
        (["meter"], "peak", {}),
    ],
    ids=["in order", "the rail last", "the VCO after the peak", "nothing between was done"],
)  # fmt: skip
def test_what_must_be_done_again(
    done: list[str], turned: str, again: dict[str, Reason], text: SettingUpText
) -> None:
    """Only what was done; moved, or set while what comes first was not right, or hanging on it."""
    assert redo(text, done, turned) == again


def test_the_order_is_stable() -> None:
    """Of what may come next the least place goes first, and what comes before always does."""
    before = {0: [3], 1: [], 2: [1], 3: [1]}
    places = [(0, 0), (2, 0), (1, 0), (1, 1)]
    assert topological(before, places) == [1, 2, 3, 0]
