"""Three beginners and their sets, told on the real knowledge: what is asked, what comes out.

A dead set whose leads are swapped; a microphone whose plug is wired for another set; a squelch that
was turned shut. What is forbidden would do harm, or is absurd after what was said.
"""

from collections.abc import Mapping

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import Step, by_minutes
from engine.diagnosis.case import Case, Kit, add_finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from tests.conftest import FAMILY

EYES = Kit(frozenset(), "on")
METER = Kit(frozenset({"multimeter"}), "on")
FIRST = 5

DEAD = {"on-off-switch.signs-of-life": "no", "supply-input.fuse-look": "no"}
SPARKED = {
    **DEAD,
    "supply.other-load": "yes",
    "history.ask-reversed": "yes",
    "supply-input.input-ohms": "120 ohm",
}
UNHEARD = {
    "operating.button-does-nothing": "yes",
    "operating.no-trace-at-others": "yes",
    "microphone.changed-when": "yes",
}
DEAF = {"operating.hears-nobody": "yes", "on-off-switch.signs-of-life": "yes"}

PLUGS_IN = {
    "supply-input.new-fuse",
    "supply-input.other-supply",
    "supply-input.limited-current",
}
ON_THE_AIR = {
    "operating.carrier-without-voice",
    "operating.hears-only-near",
    "operating.other-aerial",
    "operating.reach-short",
    "operating.swr-reads-high",
    "operating.told-too-quiet",
    "operating.what-others-report",
    "output-stage.fuse-blows-on-keying",
}


def told(model: SetModel, said: Mapping[str, str], kit: Kit = METER) -> Step:
    """Return the step after these answers."""
    case = Case(FAMILY, kit)
    for check, answer in said.items():
        case = add_finding(case, read_answer(model, check, answer))
    return step(model, case)


def leading(answer: Step) -> list[str]:
    """Return the three likeliest causes that can be mended."""
    return [cause.id for cause in answer.causes if cause.kind != "event"][:3]


def asked(answer: Step) -> set[str]:
    """Return the checks that come first, by gain or by gain per minute."""
    return {check.id for order in (answer.checks, by_minutes(answer)) for check in order[:FIRST]}


def chance(answer: Step, cause: str) -> float:
    """Return how likely a cause is."""
    return next(each.probability for each in answer.causes if each.id == cause)


@pytest.mark.parametrize(
    "more",
    [
        {},
        {"supply.other-load": "yes"},
        {"supply.other-load": "yes", "set.changes-with-a-knock": "no"},
        {"supply.other-load": "yes", "supply-input.fuse-look": "no"},
    ],
    ids=["dead", "supply proved", "no change with a knock", "fuse blown"],
)
def test_lamps_of_a_dead_set_are_not_asked_for(model: SetModel, more: Mapping[str, str]) -> None:
    """Whoever said that nothing at all lights up is not asked which lamps do."""
    said = {"on-off-switch.signs-of-life": "no", **more}
    proposed = {each.id for each in told(model, said, EYES).checks}
    assert not proposed & {"lamps.transmit-lit", "lamps.panel-lit"}


@pytest.mark.parametrize(
    ("check", "said"), [("supply.minus-sign", "yes"), ("supply.supply-volts", "-12.6")]
)
def test_a_minus_sign_settles_swapped_leads(model: SetModel, check: str, said: str) -> None:
    """Whether it is told or typed; a lamp that lights on the same plug does not speak against."""
    answer = told(model, {**SPARKED, check: said})
    assert leading(answer)[0] == "supply.leads-reversed"
    assert chance(answer, "supply.leads-reversed") > 0.9
    assert answer.verdict.causes[0] == "supply.leads-reversed"
    assert asked(answer).isdisjoint(PLUGS_IN | ON_THE_AIR)


def test_without_a_minus_sign_it_is_the_fuse(model: SetModel) -> None:
    """The same story with leads that are right by now."""
    answer = told(model, {**SPARKED, "supply.minus-sign": "no"})
    assert leading(answer)[0] == "supply-input.fuse-blown"
    assert chance(answer, "supply.leads-reversed") < 0.02


@pytest.mark.parametrize("kit", [EYES, METER], ids=["eyes", "meter"])
def test_nothing_is_plugged_in_after_a_blown_fuse(model: SetModel, kit: Kit) -> None:
    """Neither a new fuse nor another supply, until polarity and input were measured."""
    answer = told(model, DEAD, kit)
    assert {check.id for check in answer.checks}.isdisjoint(
        PLUGS_IN - {"supply-input.limited-current"}
    )
    assert asked(answer).isdisjoint(PLUGS_IN | ON_THE_AIR)


def test_a_new_fuse_may_be_tried_once_both_were_measured(model: SetModel) -> None:
    """No minus sign and no short: then it does no harm."""
    answer = told(model, {**SPARKED, "supply.minus-sign": "no"})
    assert "supply-input.new-fuse" in {check.id for check in answer.checks}


def test_the_fuse_is_proved_before_it_is_replaced(model: SetModel) -> None:
    """The cause names what has to be measured first."""
    first = model.causes["supply-input.fuse-blown"].prove_first
    assert first == ("supply.minus-sign", "supply-input.input-ohms")


def test_no_connection_at_the_input_is_no_short(model: SetModel) -> None:
    """An open input reads far above ten ohms; under ten is a short, in the text and the figures."""
    short = told(model, {**DEAD, "supply-input.input-ohms": "6 ohm"})
    open_ = told(model, {**DEAD, "supply-input.input-ohms": "20000 ohm"})
    assert chance(short, "supply-input.polarity-diode") > 0.4
    assert chance(open_, "supply-input.polarity-diode") < 0.05


@pytest.mark.parametrize("said", ["follows", "hunted", "never-closes"])
def test_a_plug_for_another_set_stays_in_front(model: SetModel, said: str) -> None:
    """Also for a beginner who hunted for two pins that beep, and for one who found none."""
    answer = told(model, {**UNHEARD, "microphone.button-continuity": said})
    assert leading(answer)[0] == "microphone.plug-rewired"
    assert asked(answer).isdisjoint(ON_THE_AIR)


def test_hunting_for_the_pins_speaks_for_the_plug(model: SetModel) -> None:
    """It settles more than a contact that was found at once."""
    found = {
        said: chance(
            told(model, {**UNHEARD, "microphone.button-continuity": said}),
            "microphone.plug-rewired",
        )
        for said in ("follows", "hunted")
    }
    assert found["hunted"] > 0.9 > found["follows"] > 0.4


def test_a_deaf_set_is_asked_for_its_knobs_first(model: SetModel) -> None:
    """Before anything that is said of the transmission."""
    answer = told(model, DEAF, EYES)
    assert "controls.receive-knobs-tried" in {check.id for check in answer.checks[:3]}
    assert by_minutes(answer)[1].id == "controls.receive-knobs-tried"
    assert leading(answer)[:2] == ["controls.squelch-shut", "controls.volume-down"]
    assert asked(answer).isdisjoint(ON_THE_AIR)


def test_a_knob_that_brought_the_sound_stays_the_cause(model: SetModel) -> None:
    """All that is answered truthfully after the cure speaks for it."""
    cured = {
        **DEAF,
        "controls.receive-knobs-tried": "yes",
        "controls.squelch-question": "was-shut",
        "operating.silent-with-squelch-open": "no",
        "operating.receive-second-set": "clear",
        "operating.hiss-but-no-voices": "no",
    }
    answer = told(model, cured, EYES)
    assert leading(answer)[0] == "controls.squelch-shut"
    assert answer.verdict.kind == "act"


def test_a_bad_filter_is_not_the_knobs(model: SetModel) -> None:
    """The knobs were tried, there is hiss, and a set across the yard is not heard."""
    answer = told(
        model,
        {
            **DEAF,
            "controls.receive-knobs-tried": "no",
            "operating.silent-with-squelch-open": "no",
            "operating.hiss-but-no-voices": "yes",
        },
        EYES,
    )
    knobs = {"controls.squelch-shut", "controls.volume-down", "controls.public-address-chosen"}
    assert knobs.isdisjoint(leading(answer))
    assert sum(chance(answer, knob) for knob in knobs) < 0.05
