"""What the page is told about proving a set: the log, the screen, the way back, the record."""

import json
import re
from html import unescape
from typing import Any

import pytest

from engine.diagnosis.storage import dump_model
from engine.proving.leading_back import as_finding
from engine.proving.readings import Typed, enter
from engine.proving.storing import loaded
from engine.proving.verdict import prove, rules_of
from tests.conftest import FAMILY, ModelOf
from web import answering, finishing, proof_answers

METER = {"do": "accuracy", "instrument": "rf-power-meter", "said": "5 %"}
KIT = {"do": "kit", "instruments": ["rf-power-meter", "dummy-load", "frequency-counter"]}


def ask(verb: str, *inputs: Any, **more: Any) -> Any:
    """Return the answer of the part that proves, about a case with these inputs."""
    log = {"format": 1, "family": FAMILY, "inputs": [KIT, *inputs]}
    args = {"log": log, "view": {"screen": "prove"}, **more}
    reply = json.loads(finishing.answer(json.dumps({"id": 1, "verb": verb, "args": args})))
    assert "answer" in reply, reply
    return reply["answer"]


def read(point: str, said: str, **more: str) -> dict[str, str]:
    """Return the input of a reading."""
    return {"do": "prove", "point": point, "said": said, "at": "2026-05-01T10:00:00", **more}


def shown(*inputs: Any) -> str:
    """Return the screen, as text of HTML."""
    return unescape(ask("show", *inputs)["html"])


def row(page: str, point: str) -> str:
    """Return the HTML of one point."""
    return page.split(f'id="point-{point}"')[1].split('<li class="point')[0]


@pytest.mark.usefixtures("finished")
def test_cautions_come_before_the_points() -> None:
    """What to mind is read before the first step, in full."""
    page = shown()
    assert page.index("Dummy load before keying. ") < page.index('id="point-')
    assert "Nothing is measured yet." in page
    assert "0 of 11 points measured." in page


@pytest.mark.usefixtures("finished")
@pytest.mark.parametrize(
    ("said", "verdict", "words"),
    [
        ("3 W", "pass", "✓ pass 3 W ±0.173 W keeps at most 4 W (MPT 1320 of 1981)"),
        ("4.4 W", "fail", "✕ FAIL 4.4 W ±0.254 W is beyond at most 4 W (MPT 1320 of 1981)"),
        (
            "4.1 W",
            "cannot-tell",
            "? cannot tell 4.1 W ±0.237 W against at most 4 W (MPT 1320 of 1981): 20 in 100 that "
            "it is kept; an error of ±0.100 W or less would tell, an instrument good to 2.11 % of "
            "the reading",
        ),
    ],
)
def test_a_reading_is_judged_at_once(said: str, verdict: str, words: str) -> None:
    """The verdict counts the error of the instrument, and tells which one would do."""
    answer = ask("show", METER, read("carrier-power", said))
    assert answer["accepted"]
    told = row(unescape(answer["html"]), "carrier-power")
    assert f'data-verdict="{verdict}"' in told
    assert words in re.sub("<[^>]+>", "", told)


@pytest.mark.usefixtures("finished")
def test_what_cannot_be_used_is_told_at_its_field() -> None:
    """A mistyped reading changes nothing; it stands in its field with what is wrong about it."""
    answer = ask("show", read("carrier-frequency@40", "high"))
    assert (answer["accepted"], answer["focus"]) == (False, "read-carrier-frequency@40")
    told = row(unescape(answer["html"]), "carrier-frequency@40")
    assert (
        "That cannot be used: 'high' does not begin with a number. Expected: a reading in "
        "kHz. Write a number in kHz, or with its own unit." in told
    )
    assert 'value="high"' in told
    assert answer["status"] == "That entry cannot be used. Nothing was lost."


@pytest.mark.usefixtures("finished")
@pytest.mark.parametrize(
    ("said", "error"),
    [
        ("27.9925", "1.25 kHz"),
        ("27,9925", "1.25 kHz"),
        ("27.9925 MHz", "1.25 kHz"),
        ("+1.25", "1.25 kHz"),
        ("1.25", "1.25 kHz"),
        ("-1.25 kHz", "-1.25 kHz"),
    ],
)
def test_figures_alone_are_what_the_counter_shows(said: str, error: str) -> None:
    """Nobody types the unit after each channel; with a sign, or far from right, it is an error."""
    told = row(shown(read("carrier-frequency@40", said)), "carrier-frequency@40")
    assert f" {error} ±0.168 kHz" in told


@pytest.mark.usefixtures("finished")
@pytest.mark.parametrize(
    ("wrong", "focus", "words"),
    [
        (
            {**METER, "said": "5 ppm"},
            "accuracy-rf-power-meter",
            "5 ppm for what reads W. Expected: a size with its unit. Write it as '5 %', "
            "'2 ppm', '1 dB', '5 % + 0.1 W' or '5 % of 10 W'.",
        ),
        (
            {**METER, "said": "good"},
            "accuracy-rf-power-meter",
            "'good' does not begin with a number. Expected: a size with its unit. Write it as "
            "'5 %', '2 ppm', '1 dB', '5 % + 0.1 W' or '5 % of 10 W'.",
        ),
        (
            {"do": "proof-rules", "rules": "us"},
            "rules",
            "'us', rules for other channels. Expected: one of uk-1981, uk-1997. A set is held "
            "to the rules its channels were made for; it cannot be judged here.",
        ),
    ],
)
def test_accuracies_and_rules_that_do_not_fit(wrong: Any, focus: str, words: str) -> None:
    """An accuracy in a foreign unit, or rules for other channels, are refused."""
    answer = ask("show", wrong)
    assert (answer["accepted"], answer["focus"]) == (False, focus)
    assert words in unescape(answer["html"])


@pytest.mark.usefixtures("finished")
def test_the_counter_is_as_good_as_its_timebase_was_told_to_be() -> None:
    """What was typed in the kit about the counter holds for the proof as well."""
    counter = {"do": "counter", "ppm": "1"}
    usual, told = (
        row(shown(*before, read("carrier-frequency@1", "27.6027 MHz")), "carrier-frequency@1")
        for before in ((), (counter,))
    )
    assert "±0.166 kHz" in usual
    assert "±0.0319 kHz" in told


@pytest.mark.usefixtures("finished")
def test_a_point_that_fails_leads_back_to_its_check() -> None:
    """The check that measures the same is offered with the reading; once entered, that is said."""
    failed = read("carrier-power", "1.2 W")
    page = shown(METER, failed)
    offered = '{"check":"aerial-switching.power-at-socket","do":"answer","said":"1.2 W"}'
    assert offered in page
    found = {"do": "answer", "check": "aerial-switching.power-at-socket", "said": "1.2 W"}
    again = shown(METER, failed, found)
    assert offered not in again
    assert "Entered as a finding: Power at the aerial socket." in again


@pytest.mark.usefixtures("finished")
def test_a_frequency_leads_back_on_its_own_channel() -> None:
    """The finding is about the channel that was read, with the sign of the error."""
    page = shown(read("carrier-frequency@40", "27.995 MHz"))
    assert '{"check":"operating.transmit-error@40","do":"answer","said":"+3.75 kHz"}' in page


def test_a_power_becomes_the_volts_its_check_asks_for(
    model_of: ModelOf, proof_texts: bytes
) -> None:
    """12 W across 50 ohm are 69.28 Vpp, the square root of 400 times the watts."""
    sheet = loaded(json.loads(proof_texts)["loop-crystal-multimode"])
    reading = enter(sheet, "sideband-power", Typed("12 W"), {})
    proved = prove(sheet, rules_of(sheet, ""), {"sideband-power": reading})
    row = next(each for each in proved.rows if each.point.id == "sideband-power")
    found = as_finding(model_of("loop-crystal-multimode"), row)
    assert found is not None
    assert found[0] == "operating-sideband.sideband-pep"
    assert found[1].value == pytest.approx((400.0 * 12.0) ** 0.5, abs=1e-3)


@pytest.mark.usefixtures("finished")
def test_what_fails_names_the_adjustments_it_is_set_by() -> None:
    """With the way to the first of them on the sheet; a point that passes names none."""
    told = row(shown(METER, read("deviation", "4 kHz")), "deviation")
    assert "If no cause is found: it is set by Deviation preset" in told
    assert '"step":"deviation-limiter.deviation-preset"' in told
    assert "set by" not in row(shown(METER, read("deviation", "2 kHz")), "deviation")


@pytest.mark.usefixtures("finished")
def test_before_and_after() -> None:
    """Measured again after work, the first reading of a point stays as it was before."""
    inputs = (
        METER,
        read("carrier-power", "1.2 W"),
        {"do": "prove-again"},
        read("carrier-power", "2 W"),
        {"do": "prove-again"},
        read("carrier-power", "3.5 W"),
    )
    told = row(shown(*inputs), "carrier-power")
    assert "Before the work: 1.2 W, ! poor." in told
    assert 'data-verdict="pass"' in told


@pytest.mark.usefixtures("finished")
def test_what_was_read_before_a_repair_is_of_the_set_as_it_was() -> None:
    """A repair makes every reading one of before; the set has to be measured again."""
    mended = {"do": "repair", "cause": "driver.driver-core", "how": "replaced"}
    page = shown(METER, read("carrier-power", "1.2 W"), mended)
    assert "0 of 11 points measured." in page
    assert "Before the work: 1.2 W, ! poor." in row(page, "carrier-power")


@pytest.mark.usefixtures("finished")
def test_the_record_has_the_proof_once_it_is_begun() -> None:
    """On paper and as text: rules, verdict, why, every reading with its instrument."""
    assert ask("later", part="proof")["parts"] == {"proof": ""}
    assert "Proof" not in ask("summary")["text"]
    inputs = (METER, read("carrier-power", "4.4 W"), read("squelch-range", "yes"))
    paper = unescape(ask("later", *inputs, part="proof")["parts"]["proof"])
    assert "Not right. It breaks its rules" in paper
    assert "In-line RF power and SWR meter, ±5 %, 2026-05-01 10:00" in paper
    text = ask("summary", *inputs)["text"]
    assert (
        "Fails: Carrier power, power switch at high, channel 20: 4.4 W ±0.254 W is beyond at most "
        "4 W (MPT 1320 of 1981)" in text
    )
    assert (
        "- Carrier power, power switch at high, channel 20: – | 4.4 W (In-line RF power and SWR "
        "meter, ±5 %, 2026-05-01 10:00) | ✕ FAIL | at most 4 W (MPT 1320 of 1981); at least 2.8 W "
        "(usual figure)" in text
    )
    assert "- Squelch: – | yes (2026-05-01 10:00) | ✓ pass | yes" in text
    assert text.rstrip().splitlines()[-1].startswith("Dryjoint 1.2.3")


@pytest.mark.usefixtures("finished")
def test_what_was_withdrawn_is_measured_no_more() -> None:
    """An empty reading takes the one before it back."""
    page = shown(read("squelch-range", "no"), read("squelch-range", ""))
    assert 'data-verdict="missing"' in row(page, "squelch-range")
    assert "0 of 11 points measured." in page


@pytest.mark.usefixtures("finished")
def test_readings_this_set_has_no_point_for_are_left_out() -> None:
    """A reading of another version is no stumbling block; the rest counts."""
    page = shown(read("no-such-point", "1 W"), read("squelch-range", "yes"))
    assert "1 of 11 points measured." in page


@pytest.mark.usefixtures("finished")
def test_a_set_of_own_knowledge_brings_its_proof(
    model_of: ModelOf, proof_texts: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The points of a set compiled in the browser come with its model, in a second line."""
    monkeypatch.setattr(answering, "OWN_PROOFS", {})
    monkeypatch.setattr(proof_answers, "OWN_PROOFS", answering.OWN_PROOFS)
    own = json.loads(proof_texts)[FAMILY]
    own["points"] = own["points"][:2]
    answering.learn("own/mine", f"{dump_model(model_of(FAMILY))}\n{json.dumps(own)}")
    log = {"format": 1, "family": "own/mine", "inputs": []}
    request = {"id": 1, "verb": "show", "args": {"log": log, "view": {"screen": "prove"}}}
    reply = json.loads(finishing.answer(json.dumps(request)))
    assert "0 of 2 points measured." in reply["answer"]["html"]
    assert "Worked out with your own knowledge" in reply["answer"]["html"]


@pytest.mark.usefixtures("finished")
def test_a_set_whose_kind_is_open_is_not_proved() -> None:
    """Which points there are hangs on the kind."""
    log = {"format": 1, "family": "not-sure", "inputs": []}
    request = {"id": 1, "verb": "show", "args": {"log": log, "view": {"screen": "prove"}}}
    reply = json.loads(finishing.answer(json.dumps(request)))
    assert "Settle the kind first" in reply["answer"]["html"]


@pytest.mark.usefixtures("finished")
def test_without_instruments_it_says_for_whom_it_is() -> None:
    """First of all, with the way back; nothing of it with an instrument at hand."""
    page = shown({"do": "kit", "instruments": []})
    assert "You said that you have no instruments. Then this screen is not for you" in page
    assert page.index("for-a-bench") < page.index("proof-verdict")
    assert "for-a-bench" not in shown()
