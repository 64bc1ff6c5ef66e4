"""What the views show, without a browser."""

import re
from dataclasses import replace

import pytest

from engine.diagnosis.case import Kit
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading
from web.answering import bench_of
from web.replaying import Input, replay
from web.views.bench import bench_screen
from web.views.check import check_at_hand
from web.views.diagram import block_list, diagram
from web.views.home import home
from web.views.kit import kit
from web.views.markup import html
from web.views.page import later
from web.views.record.sheet import paper, summary
from web.views.state import Bench, Refused, Shown
from web.views.symptoms import grouped, is_ticked, symptoms
from web.views.verdict import sentence, verdict

DARK = {"do": "answer", "check": "supply.dark", "said": "yes", "at": "2001-02-03T04:05:06"}
JUNCTIONS = "sender.transistor-junctions"
EVERYTHING = [
    {"do": "kit", "instruments": ["multimeter", "power-meter", "dummy-load", "no-such-thing"]},
    {"do": "lid", "lid": "off"},
]


def after(model: SetModel, *inputs: Input) -> Bench:
    """Return the case after a whole kit and these inputs."""
    return bench_of(model, replay(model, [*EVERYTHING, *inputs]))


def test_cautions_stand_before_the_step(fresh: Bench) -> None:
    """The dummy load is spoken of before the place of the probe and before the question."""
    card = html(check_at_hand(fresh, Shown(check="sender.power")))
    caution = card.index("Connect the dummy load before the button is pressed")
    assert caution < card.index("<dl") < card.index("What power does the meter show?")


def test_cautions_of_a_step_made_are_named_in_one_line(small_model: SetModel) -> None:
    """Whoever has a bench has read them at that step; whoever has little reads them each time."""
    looked = replace(small_model.checks[JUNCTIONS], cautions=("dummy-load-first",))
    model = replace(small_model, checks={**small_model.checks, JUNCTIONS: looked})
    made = {"do": "answer", "check": JUNCTIONS, "said": "no"}
    power = Shown(check="sender.power")
    assert "As before" not in html(check_at_hand(after(model), power))
    card = html(check_at_hand(after(model, made), power))
    title = model.cautions["dummy-load-first"].title
    assert f"<summary>As before: <b>{title}</b></summary><ul><li><b>{title}. </b>" in card
    little = {"do": "kit", "instruments": ["multimeter"]}
    assert "As before" not in html(check_at_hand(after(model, made, little), power))


def test_reading_asks_for_a_number_with_its_unit(fresh: Bench) -> None:
    """A reading has a field, its unit and its span."""
    card = html(check_at_hand(fresh, Shown(check="sender.power")))
    assert "Reading in W" in card
    assert "From 0 to 10 W." in card
    assert "Cannot check, or not sure" in card


def test_refused_entry_is_kept_and_explained(fresh: Bench) -> None:
    """What was typed stays in the field; found, expected and remedy stand below it."""
    problem = UnknownReading("sender.power", "'<b>'", "a reading in W", "Write a number.")
    card = html(
        check_at_hand(
            replace(fresh, refused=Refused("sender.power", '">', problem)),
            Shown(check="sender.power"),
        )
    )
    assert 'value="&quot;&gt;"' in card
    assert "cannot be used: '&lt;b&gt;'. Expected: a reading in W. Write a number." in card


def test_kit_decides_what_is_proposed(bare: Bench, fresh: Bench) -> None:
    """Without instruments, lid on, no check that needs either is listed."""
    assert "Volts on the rail" in html(*bench_screen(fresh, Shown(all_checks=True)))
    assert "Volts on the rail" not in html(*bench_screen(bare, Shown(all_checks=True)))


def test_kit_screen_ticks_what_is_there(small_model: SetModel) -> None:
    """Boxes echo the kit; an instrument nobody knows is left out."""
    shown = html(*kit(after(small_model, {"do": "lack", "instrument": "multimeter"})))
    assert re.search(r'id="have-power-meter" checked', shown)
    assert re.search(r'id="have-multimeter" data-on', shown)
    assert "no-such-thing" not in re.sub(r'data-input="[^"]*"', "", shown)


def test_causes_show_figure_change_and_kind(small_model: SetModel) -> None:
    """Each bar has its number as text, its change since the last finding, and its kind."""
    shown = html(*bench_screen(after(small_model, DARK), Shown()))
    row = shown[shown.index('data-cause="supply.fuse-joint"') :]
    assert re.search(r'class="figure">[\d.]+ %<', row)
    assert re.search(r'class="moved up">up \d+<', row)
    assert "Supply · failed part" in row


def test_event_is_no_part_to_replace(fresh: Bench) -> None:
    """What the set went through stands apart from the ranked causes."""
    shown = html(*bench_screen(fresh, Shown(all_causes=True)))
    assert 'data-cause="past.drop"' not in shown
    assert "What it may have been through: The set was dropped (5.0 %)" in shown


def test_opened_cause_shows_cautions_before_the_act(fresh: Bench) -> None:
    """What to do comes after what can go wrong while doing it."""
    shown = html(*bench_screen(fresh, Shown(cause="supply.fuse-joint")))
    opened = shown[shown.index('id="opened-cause"') :]
    assert opened.index("Switch off and wait before soldering") < opened.index("Resolder it.")


def test_reasons_add_up(small_model: SetModel) -> None:
    """The prior and the weights of the findings make the figure in the last line."""
    bench = after(small_model, DARK)
    shown = later(bench, Shown(screen="bench", cause="supply.fuse-joint"), "check", "0")["why"]
    figures = [
        float(each.replace("−", "-")) for each in re.findall(r'class="figure">([^<]+)<', shown)
    ]
    # Each of the three figures is rounded to one place.
    assert sum(figures[:-1]) == pytest.approx(figures[-1], abs=0.16)
    assert "speaks strongly for it" in shown


def test_effects_follow_for_every_outcome(fresh: Bench) -> None:
    """Every answer is shown with its probability and the causes that would lead then."""
    parts = later(fresh, Shown(screen="bench", check="sender.weak"), "check", "0")
    for outcome in ("As loud as ever", "Faint", "Nothing at all"):
        assert outcome in parts["effects"]
    assert "Helps to tell <b>" in parts["tells"]


def test_drawing_and_list_say_the_same(small_model: SetModel) -> None:
    """Every block is in both, with the same figure; colour is never alone."""
    bench = after(small_model, DARK)
    blocks = bench.step.blocks
    drawn = re.findall(r"<title>([^<]+): ([^<]+)</title>", html(diagram(small_model, blocks, None)))
    rows = re.findall(
        r'<button [^>]*>([^<]+)<span class="figure">([^<]+)<',
        html(block_list(small_model, blocks, None)),
    )
    assert sorted(drawn) == sorted(rows)
    assert {title for title, _ in drawn} == {"Supply", "Sender"}  # events happen nowhere
    figures = html(diagram(small_model, blocks, None)).count('class="chance"')
    assert figures == len(drawn)


def test_opened_block_is_marked_with_its_wires(fresh: Bench) -> None:
    """The opened block and the wires at it stand out in the drawing."""
    drawn = html(diagram(fresh.model, fresh.step.blocks, "sender"))
    assert re.search(r'class="block heat-\d opened" id="block-sender"', drawn)
    assert "touched" in drawn


def test_symptoms_are_grouped_and_echo_the_case(small_model: SetModel) -> None:
    """A ticked symptom comes back ticked; one with several outcomes is a choice."""
    shown = html(*symptoms(after(small_model, DARK), Shown(filter="lamp")))
    assert re.search(r'id="tick-supply\.dark" checked', shown)
    assert re.search(r'<select[^>]*id="pick-sender\.weak"', shown)
    assert 'value="lamp"' in shown
    assert sum(map(len, grouped(small_model.checks.values()).values())) == 2


def test_tick_only_where_yes_means_wrong(small_model: SetModel) -> None:
    """A symptom is a box to tick only when a yes is unusual for a set that is right."""
    dark = small_model.checks["supply.dark"]
    assert is_ticked(dark)
    lit = replace(dark, channel=replace(dark.channel, rows=((0.97, 0.03),)))
    assert not is_ticked(lit)


def test_paper_is_complete(small_model: SetModel) -> None:
    """The record has set, note, kit, findings with time, causes, advice and cautions."""
    bench = after(small_model, DARK, {"do": "note", "text": "From the <upper> fold"})
    shown = html(paper(bench, (), "1.2.3"))
    for words in (
        "Set: Hill-farm beacon, an invented set",
        "From the &lt;upper&gt; fold",
        "all 3 that are known here",
        "2001-02-03 04:05",
        "No lamp lights",
        "Ranked causes",
        "Checks that would tell most now",
        "Given back to",
        "Switch off and wait before soldering.",
        "Dryjoint 1.2.3",
    ):
        assert words in shown


def test_summary_is_plain_text(small_model: SetModel) -> None:
    """The text to paste names findings, causes and next checks, without a tag."""
    text = summary(after(small_model, DARK), "1.2.3")
    assert "- No lamp lights: Yes" in text
    assert "(Checks that would tell most now | Worth | Takes)" in text
    assert "Given back to" not in text
    assert "<" not in text


def test_first_screen_lists_cases_kept(small_model: SetModel) -> None:
    """A case kept in the browser can be gone on with or deleted; an unknown set is said."""
    record = {"id": "a1", "changed": "2001-02-03T04:05:06", "family": "beacon", "steps": 3}
    shown = html(*home([small_model.family], [record, {**record, "id": "b2", "family": "other"}]))
    assert "Hill-farm beacon, an invented set</b> · 3 entries · 2001-02-03 04:05" in shown
    assert "other, a set this version does not know" in shown


def test_nothing_found_is_said(bare: Bench) -> None:
    """Before the first finding the verdict asks for one."""
    assert sentence(bare).startswith("Nothing found yet")


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("act", "Sure enough to act"),
        ("not-in-knowledge", "the knowledge does not hold"),
        ("nothing-wrong", "nothing wrong"),
        ("no-check-left", "no check tells more"),
        ("clash", "cannot all be true"),
        ("measure", "Not sure enough"),
    ],
)
def test_every_verdict_has_its_words(small_model: SetModel, kind: str, words: str) -> None:
    """Each kind of verdict is one plain sentence."""
    bench = after(small_model, DARK)
    step = replace(bench.step, verdict=replace(bench.step.verdict, kind=kind))
    assert words in sentence(replace(bench, step=step))


def test_clash_names_the_findings(small_model: SetModel) -> None:
    """Findings that cannot all be true are named, each with a way back to it."""
    bench = after(small_model, DARK)
    clash = bench.case.findings
    step = replace(
        bench.step, verdict=replace(bench.step.verdict, kind="clash"), clash=clash, set_aside=clash
    )
    shown = html(verdict(replace(bench, step=step)))
    assert "No lamp lights: Yes" in shown
    assert "Look again" in shown


def test_input_of_a_check_long_gone_is_set_aside(small_model: SetModel) -> None:
    """A case from another version opens; what it cannot use is said."""
    gone = {"do": "answer", "check": "supply.gone", "said": "yes"}
    bench = after(small_model, gone, DARK)
    assert [each.check for each in bench.case.findings] == ["supply.dark"]
    assert "supply.gone" in html(verdict(bench))


def test_empty_choice_withdraws(small_model: SetModel) -> None:
    """Choosing 'not noticed' takes the finding back."""
    weak = {"do": "answer", "check": "sender.weak", "said": "faint"}
    assert after(small_model, weak, {**weak, "said": ""}).case.findings == ()


def test_kit_of_a_log(small_model: SetModel) -> None:
    """Instruments come and go one by one; the lid is off once it is said."""
    inputs = [
        {"do": "have", "instrument": "multimeter"},
        {"do": "have", "instrument": "dummy-load"},
        {"do": "lack", "instrument": "multimeter"},
    ]
    assert replay(small_model, inputs).case.kit == Kit(frozenset({"dummy-load"}), "on")


def held(model: SetModel, **changed: object) -> SetModel:
    """Return the tiny set, the power of its sender held to the limit of its rules."""
    power = replace(model.checks["sender.power"], limit="carrier-power", **changed)  # type: ignore[arg-type]
    return replace(model, checks={**model.checks, "sender.power": power})


def powered(model: SetModel, said: str) -> Bench:
    """Return the case after a power was entered."""
    return after(held(model), {"do": "answer", "check": "sender.power", "said": said, "at": ""})


def test_a_finding_is_told_as_it_was_understood(small_model: SetModel) -> None:
    """With what it was worked out from, and what the limit says of it."""
    words = "3.062 W: within the 4 W limit (bench-book, as read)"
    bench = powered(small_model, "35 Vpp")
    listed = html(*bench_screen(bench, Shown()))
    assert ": 3.0625 W (35 Vpp across 50 ohm is 3.06 W)" in listed
    assert f"{words}." in listed
    card = html(check_at_hand(bench, Shown(check="sender.power")))
    assert (
        "Entered so far: 35 Vpp, understood as “35 Vpp across 50 ohm is 3.06 W”. " + words in card
    )


def test_the_record_holds_the_limits(small_model: SetModel) -> None:
    """On paper below the findings, in the text as a line; nothing where no limit applies."""
    bench = powered(small_model, "3.9 W")
    words = "3.9 W: cannot tell whether it keeps the 4 W limit"
    written = html(paper(bench, (), "1"))
    assert "<h3>Limits</h3>" in written
    assert words in written
    assert f"Limits:\n- Power into the dummy load: {words}" in summary(bench, "1")
    bare = after(small_model, DARK)
    assert "Limits" not in html(paper(bare, (), "1"))
    assert "Limits" not in summary(bare, "1")


WAYS = [
    ({"quantity": "power"}, "No power meter?", "such as 40 Vpp."),
    ({"quantity": "deviation", "unit": "kHz"}, "No deviation meter?", "first null at 1040 Hz."),
    ({"quantity": "swr", "unit": "SWR"}, "No SWR on the meter?", "type 4 W / 0.44 W."),
    (
        {"quantity": "sensitivity", "unit": "uV"},
        "Generator marked otherwise?",
        "Type 12 dB SINAD at 0.3 uV,",
    ),
    ({"quantity": "am-depth", "unit": "%"}, "No modulation meter?", "max 74 min 6 Vpp, or 74/6."),
    (
        {"quantity": "frequency-error", "unit": "ppm", "nominal_mhz": 10.24},
        "Counter in MHz?",
        "Type what the counter shows, with its unit: 10.240000 MHz.",
    ),
    (
        {"quantity": "frequency-error", "unit": "kHz"},
        "Counter in MHz?",
        "Type what the counter shows, and the channel: 27.61125 MHz on channel 2.",
    ),
]


@pytest.mark.parametrize(("changed", "head", "line"), WAYS, ids=lambda one: str(one)[:40])
def test_another_way_of_measuring_is_offered(
    changed: dict[str, object], head: str, line: str, small_model: SetModel
) -> None:
    """Below the field, closed until it is asked for."""
    card = html(check_at_hand(after(held(small_model, **changed)), Shown(check="sender.power")))
    assert f"<summary>{head}</summary>" in card
    assert line in card


def test_a_plain_reading_has_one_way_only(fresh: Bench) -> None:
    """Volts are volts."""
    assert "otherwise" not in html(check_at_hand(fresh, Shown(check="supply.rail-volts")))
