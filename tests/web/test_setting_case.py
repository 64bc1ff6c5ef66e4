"""What the page is told about setting a set up: order, verdicts, what to redo, the way back."""

import json
import re
from dataclasses import replace
from html import unescape
from typing import Any

import pytest

from engine.diagnosis.case import add_finding
from engine.setting_up.guiding import with_evidence
from tests.conftest import FAMILY
from web import answering, finishing
from web.replaying import replay
from web.set_up_case import evidence, set_up_case, visit_of

RAIL, REFERENCE = "regulators.rail-preset", "reference-oscillator.ref-trimmer-set"
VCO = "vco.vco-core"


def kit() -> dict[str, Any]:
    """Return the input of a whole bench."""
    return {"do": "kit", "instruments": sorted(answering.MODELS[FAMILY].instruments)}


def ask(verb: str, *inputs: Any, **more: Any) -> Any:
    """Return the answer of the part that sets up, about a case with these inputs."""
    log = {"format": 1, "family": FAMILY, "inputs": [kit(), *inputs]}
    args = {"log": log, "view": {"screen": "set-up"}, **more}
    reply = json.loads(finishing.answer(json.dumps({"id": 1, "verb": verb, "args": args})))
    assert "answer" in reply, reply
    return reply["answer"]


def visit(adjustment: str, *pairs: tuple[str, str], **more: str) -> dict[str, str]:
    """Return the input of a visit."""
    fields = {
        f"{when}-{number}": said
        for number, pair in enumerate(pairs)
        for when, said in zip(("before", "after"), pair, strict=True)
    }
    return {"do": "set", "adjustment": adjustment, **fields, **more}


def shown(*inputs: Any) -> str:
    """Return the screen, as text of HTML."""
    return unescape(ask("show", *inputs)["html"])


def states(page: str) -> dict[str, str]:
    """Return where every step stands, in order."""
    return dict(re.findall(r'id="step-([^"]+)" data-state="([^"]+)"', page))


def step(page: str, adjustment: str) -> str:
    """Return the HTML of one step."""
    return page.split(f'id="step-{adjustment}"')[1].split('<li class="point')[0]


@pytest.mark.usefixtures("finished")
def test_the_first_step_is_open_with_its_cautions_first() -> None:
    """What to mind comes before what to do; the others are folded up, in order."""
    page = shown()
    first, second = step(page, RAIL), step(page, REFERENCE)
    assert 'aria-expanded="true"' in first
    assert 'aria-expanded="false"' in second
    assert "<form" not in second
    assert "<form" in step(
        unescape(ask("show", view={"screen": "set-up", "step": REFERENCE})["html"]), REFERENCE
    )
    assert first.index("Cores break.") < first.index("<dt>Where</dt>")
    assert "<dd>8 V ± 0.2 V</dd>" in first
    assert list(states(page))[:2] == [RAIL, REFERENCE]


@pytest.mark.usefixtures("finished")
def test_before_and_after_are_judged_and_the_next_is_told() -> None:
    """A value that holds is done; the focus goes to the next step."""
    answer = ask("show", visit(RAIL, ("7.2 V", "8.05 V")))
    page = unescape(answer["html"])
    assert states(page)[RAIL] == "holds"
    assert "before 7.2 V -> 8.05 V: holds." in page
    assert answer["focus"] == f"before-0-{REFERENCE}"
    assert answer["status"] == (
        "Preset of the regulated rail, where there is one: holds. 1 of 37 steps done. "
        "Next: Reference trimmer."
    )


@pytest.mark.usefixtures("finished")
def test_out_of_order_means_doing_it_again() -> None:
    """A rail that is set later moves the coil of the VCO that was set before it."""
    coil = visit(VCO, ("3 V", "3.3 V"), ("2 V", "2 V"))
    assert states(shown(coil))[VCO] == "holds"
    page = shown(coil, visit(RAIL, ("7.2 V", "8 V")))
    assert states(page)[VCO] == "again"
    assert "Do it again: " in step(page, VCO)
    opened = unescape(
        ask(
            "show",
            coil,
            visit(RAIL, ("7.2 V", "8 V")),
            view={"screen": "set-up", "step": VCO},
        )["html"]
    )
    assert 'value="3.3 V"' not in step(opened, VCO)
    assert "Leave “Set to” empty where nothing had to be turned." in step(opened, VCO)


@pytest.mark.usefixtures("finished")
def test_a_pair_ends_once_neither_had_to_be_turned() -> None:
    """Found right and left alone, a step does not make the other one due again."""
    both = (visit(VCO, ("3 V", "3.3 V"), ("2 V", "2 V")), visit(RAIL, ("7.2 V", "8 V")))
    page = shown(*both, visit(VCO, ("3.3 V", ""), ("2 V", "")))
    assert (states(page)[RAIL], states(page)[VCO]) == ("holds", "holds")


@pytest.mark.usefixtures("finished")
def test_what_cannot_be_used_is_told_in_its_step() -> None:
    """A mistyped value stands where it was typed, with what is wrong about it."""
    answer = ask("show", visit(RAIL, ("lots", "")))
    assert (answer["accepted"], answer["focus"]) == (False, f"before-0-{RAIL}")
    told = step(unescape(answer["html"]), RAIL)
    assert 'value="lots"' in told
    assert (
        "That cannot be used: 'lots' does not begin with a number. Expected: a reading in V. "
        "Write a number in V, or with its own unit." in told
    )


STUCK = visit(REFERENCE, ("10.2405 MHz", "10.2404 MHz"), **{"gave-up": "yes"})


@pytest.mark.usefixtures("finished")
def test_what_will_not_come_right_leads_back_to_the_search() -> None:
    """The readings are offered as findings about the adjustment put right, as the engine has it."""
    answer = ask("show", STUCK)
    page = unescape(answer["html"])
    assert states(page)[REFERENCE] == "stuck"
    assert "Find the fault behind this first: 2. Reference trimmer" in page
    (offered,) = re.findall(r'data-inputs="(\[.*?\])"', page)
    inputs = json.loads(offered)
    assert [each["do"] for each in inputs] == ["answer", "repair", "answer", "set-up-sheet"]
    assert states(shown(STUCK, *inputs))[REFERENCE] == "to-do"
    assert len(states(shown(STUCK, *inputs))) == 37


@pytest.mark.usefixtures("finished")
def test_evidence_is_what_the_engine_makes_of_a_visit() -> None:
    """The inputs leave the case as the engine's own function does."""
    model = answering.MODELS[FAMILY]
    state = replay(model, [kit(), STUCK])
    sheet = set_up_case(model, state)
    standing = sheet.standing(REFERENCE)
    assert standing is not None
    made = visit_of(model, state.case, standing.step, state.set_up.visits[-1])
    by_engine = with_evidence(model, state.case, standing.step, made)
    by_inputs = replay(model, [kit(), STUCK, *evidence(model, standing)]).case
    assert by_inputs == by_engine
    assert by_inputs != add_finding(state.case, by_inputs.findings[0])


@pytest.mark.usefixtures("finished")
def test_after_a_repair_only_what_it_upsets_is_listed() -> None:
    """The whole sheet is one press away."""
    mended = {"do": "repair", "cause": VCO, "how": "replaced"}
    few = states(shown(mended))
    assert VCO in few
    assert len(few) < 37
    whole = {"do": "set-up-sheet", "sheet": "everything"}
    assert len(states(shown(mended, whole))) == 37


@pytest.mark.usefixtures("finished")
def test_a_repair_undoes_what_it_upsets() -> None:
    """What was set before is told as set before the repair; it has to be set again."""
    coil = visit(VCO, ("3 V", "3.3 V"), ("2 V", "2 V"))
    mended = {"do": "repair", "cause": VCO, "how": "replaced"}
    assert states(shown(coil, mended))[VCO] == "to-do"
    text = ask("summary", coil, mended)["text"]
    assert "Set before a repair that upset it: VCO coil mis-set: 3 V to 3.3 V; 2 V to 2 V" in text


@pytest.mark.usefixtures("finished")
def test_a_visit_is_taken_back_and_a_step_left_out() -> None:
    """Both are entries of the case, so undo knows them too."""
    back = {"do": "unset", "adjustment": RAIL}
    assert states(shown(visit(RAIL, ("7.2 V", "8 V")), back))[RAIL] == "to-do"
    assert states(shown(visit(RAIL)))[RAIL] == "left-out"


@pytest.mark.usefixtures("finished")
def test_the_record_has_every_adjustment_before_and_after() -> None:
    """On paper and as text, before the proof; nothing before it was begun."""
    assert ask("later", part="proof")["parts"] == {"proof": ""}
    done = visit(RAIL, ("7.2 V", "8.05 V"))
    proved = {"do": "prove", "point": "squelch-range", "said": "yes"}
    paper = unescape(ask("later", done, proved, part="proof")["parts"]["proof"])
    assert paper.index("Set up") < paper.index("Proof: ")
    text = ask("summary", done)["text"]
    assert (
        "- 1. Preset of the regulated rail, where there is one: 8 V ± 0.2 V | "
        "before 7.2 V -> 8.05 V: holds | ✓ holds" in text
    )


@pytest.mark.usefixtures("finished")
def test_a_set_whose_kind_is_open_is_not_set_up() -> None:
    """Which adjustments there are hangs on the kind."""
    answering.MODELS["not-sure"] = replace(answering.MODELS[FAMILY], setting_up=None)
    log = {"format": 1, "family": "not-sure", "inputs": []}
    request = {"id": 1, "verb": "show", "args": {"log": log, "view": {"screen": "set-up"}}}
    reply = json.loads(finishing.answer(json.dumps(request)))
    assert "Settle the kind first" in reply["answer"]["html"]


@pytest.mark.usefixtures("finished")
def test_with_the_lid_on_it_says_for_whom_it_is() -> None:
    """First of all, with the way back; nothing of it once the lid is off."""
    page = shown()
    assert "You said that the lid stays on. Then this screen is not for you" in page
    assert page.index("for-a-bench") < page.index("set-up-standing")
    assert "for-a-bench" not in shown({"do": "lid", "lid": "off"})
